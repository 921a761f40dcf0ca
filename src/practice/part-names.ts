import type { Part } from "./types.js";

/** What each part is called inside a sentence, wherever a text of ours speaks of it. */
export const PART_NAMES: Readonly<Record<Part, string>> = {
  primary: "the primary movement",
  correction: "corrections",
  stopAndPress: "stopping and pressing",
  nextTarget: "leaving for the next target",
};

/** And beside an axis. */
export const PART_LABELS: Readonly<Record<Part, string>> = {
  primary: "primary movement",
  correction: "corrections",
  stopAndPress: "stop and press",
  nextTarget: "next target",
};

/** A verb after the name of a part: corrections are several, each other part is one. */
export function partVerb(part: Part, one: string, several: string): string {
  return part === "correction" ? several : one;
}
