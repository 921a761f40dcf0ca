import type { TraineePart } from "./options.js";

export const TRAINEE_PARTS: readonly TraineePart[] = ["primary", "correction", "stopAndPress", "nextTarget"];

/** A value for every part. */
export function eachPart<T>(value: (part: TraineePart) => T): Record<TraineePart, T> {
  return {
    primary: value("primary"),
    correction: value("correction"),
    stopAndPress: value("stopAndPress"),
    nextTarget: value("nextTarget"),
  };
}
