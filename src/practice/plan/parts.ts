import type { Part } from "../types.js";

/** In the order of one movement. */
export const PARTS: readonly Part[] = ["primary", "correction", "stopAndPress", "nextTarget"];

/** What is drilled, in one sentence. */
export const PART_DRILLS: Readonly<Record<Part, string>> = {
  primary: "Aim at single targets at varied distances and directions, and attend to where the first stroke ends, before any correction.",
  correction: "Aim at small targets, or follow a slow one, and take off the error that is left with few, small and prompt strokes.",
  stopAndPress: "Aim at near targets, come to rest the same way each time, and press without moving the pointer.",
  nextTarget:
    "Take several targets shown at once, plan the order before the first press, and leave for the next one as soon as the press is made.",
};

/** What is done in combined practice. */
export const COMBINED_DRILL = "All four parts together: whole tasks with targets of varied distance and size, one after the other.";
