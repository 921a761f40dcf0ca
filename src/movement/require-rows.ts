import { requireObject, show } from "../math/require.js";

/** Throws unless a recording is an object and rows, where given, are a list. */
export function requireRows(where: string, recording: unknown, rows: unknown): void {
  requireObject(where, "recording", recording);
  if (!Array.isArray(rows)) throw new TypeError(`${where}: rows must be an array of acquisitions, got ${show(rows)}`);
}
