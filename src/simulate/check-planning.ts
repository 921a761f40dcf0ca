import { requireInteger, requireNumber, show } from "../math/require.js";
import type { SimulationSettings } from "./options.js";
import { requireRange } from "./require-range.js";

/** Most targets that are put into the shortest order. */
const MOST_ORDERED = 13;

/** Throws unless the planning is in range and goes together with the sequences. */
export function checkPlanning(where: string, { planning, sequence }: SimulationSettings): void {
  for (const name of ["shortest", "nearest", "random", "overlapShare", "pullShare", "pull", "hesitationShare"] as const) {
    requireNumber(where, `options.planning.${name}`, planning[name], 0, 1);
  }
  const sum = planning.shortest + planning.nearest + planning.random;
  // shares such as 0.7 + 0.2 + 0.1 add up to a hair more
  if (sum > 1 + 1e-9) {
    throw new RangeError(`${where}: options.planning.shortest, nearest and random must add up to at most 1, got ${sum}`);
  }
  const most = typeof sequence === "number" ? sequence : sequence.reduce((a, b) => Math.max(a, b));
  if (planning.shortest > 0 && most > MOST_ORDERED) {
    throw new RangeError(
      `${where}: options.planning.shortest must be 0 with over ${MOST_ORDERED} targets in a trial, got ${planning.shortest}`,
    );
  }
  requireRange(where, "options.planning.overlapLead", planning.overlapLead, 0);
  requireNumber(where, "options.planning.latencyPerBit", planning.latencyPerBit, 0, 10);
  requireRange(where, "options.planning.hesitation", planning.hesitation, 0);
  requireInteger(where, "options.planning.layouts", planning.layouts, 0, 1000);
}

/** Throws unless `sequence` is a number of targets or a list of them. */
export function requireSequence(where: string, sequence: number | readonly number[]): void {
  if (typeof sequence === "number") {
    requireInteger(where, "options.sequence", sequence, 0);
    return;
  }
  if (!Array.isArray(sequence) || sequence.length === 0) {
    throw new TypeError(`${where}: options.sequence must be a whole number or an array of at least one, got ${show(sequence)}`);
  }
  sequence.forEach((count, i) => {
    requireInteger(where, `options.sequence[${i}]`, count, 1);
  });
}
