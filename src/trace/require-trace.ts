import { requireColumn, show } from "../math/require.js";
import type { Trace } from "./types.js";

/** Throws unless the trace has equally long finite columns whose time never runs backward. */
export function requireTrace(where: string, name: string, trace: Trace): void {
  if (trace === null || typeof trace !== "object")
    throw new TypeError(`${where}: ${name} must be a trace with columns t, x, y, got ${show(trace)}`);
  requireColumn(where, `${name}.t`, trace.t);
  requireColumn(where, `${name}.x`, trace.x, trace.t.length);
  requireColumn(where, `${name}.y`, trace.y, trace.t.length);
  const { t } = trace;
  for (let i = 1; i < t.length; i++) {
    if (t[i]! < t[i - 1]!) {
      throw new RangeError(`${where}: ${name}.t must not run backward, got ${name}.t[${i}] = ${t[i]} after ${t[i - 1]}`);
    }
  }
}
