// The reference figures that lie beside the recordings.
import { readFileSync } from "node:fs";
import { sharedPath } from "../shared.js";

/** The figures of a folder of recordings, made by the NumPy script there; `undefined` when it is absent. */
// biome-ignore lint/suspicious/noExplicitAny: the shape varies by folder
export function recordingFacts(folder: string): any {
  const path = sharedPath("data", folder, "facts.json");
  return path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
}
