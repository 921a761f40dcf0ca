import type { Part } from "../types.js";

const NAMES: Readonly<Record<Part, string>> = {
  nextTarget: "leaving for the next target",
  primary: "the primary movement",
  correction: "correcting",
  stopAndPress: "stopping and pressing",
};

/** A part in words. */
export function partInWords(part: Part): string {
  return NAMES[part];
}

/** Seconds as milliseconds, with their sign where it matters. */
export function milliseconds(seconds: number): string {
  return `${Math.round(1000 * seconds)} ms`;
}
