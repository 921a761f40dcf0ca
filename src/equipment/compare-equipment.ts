import type { Estimate } from "../math/estimate.js";
import { requireLevel, requireNumber, requireObject } from "../math/require.js";
import type { Equipment } from "../trace/types.js";
import { delayDifference } from "./delay/delay-difference.js";
import { delayPayments } from "./delay/delay-payments.js";
import { lengthEffects } from "./record/length-effects.js";
import { FIELDS, requireEquipment } from "./record/require-equipment.js";
import { timingEffect } from "./record/timing-effect.js";
import type { EquipmentComparison, EquipmentEffect, EquipmentField } from "./types.js";

const WHERE = "compareEquipment";

/** Options of `compareEquipment`. */
export interface CompareEquipmentOptions {
  /** Corrections per acquisition: each is made on what was seen, and pays the delay once. At least 0, default 1. Raised, the effect on times grows. */
  readonly loops?: number;
  /** Share of acquisitions that begin on sight of their target, 0 to 1, default 1: the next target of a sequence has been in view. Lowered, latency is affected less. */
  readonly responses?: number;
  /** The person's own spread of the press about the stop, seconds, above 0, default 0.025. Raised, frames and reports widen it less. */
  readonly timingSd?: number;
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** Fields that bear on what is seen when, and on nothing else. */
const DELAY_FIELDS: readonly EquipmentField[] = ["refreshHz", "frameCapHz", "latency", "reportHz"];
/** Without one of these nobody knows the delay. */
const TELLS_DELAY: readonly EquipmentField[] = ["refreshHz", "latency"];

/**
 * Whether two equipment records are the same, and what their difference does to the measures, so that it is not taken for a change of skill.
 *
 * Delay: of latencies measured end to end the difference (standard error 2 ms each, a choice); without them 0.5 to 2 frame intervals, the same for both displays, half a
 * report interval, and where the name changed a standard error of 5 ms for what no field tells of (a choice). It is added to response latency one for one where the target is waited for, to correcting once per correction, to the press at most once (it may come without looking), to
 * pursuit lag one for one; the primary is under way before anything could be seen. Other differences (gain, distance, field of view) change what the hand has to do
 * by an amount that no record tells; then only what a length becomes is given. Cost O(1).
 *
 * @param before - record of the earlier sessions, or of the reference
 * @param after - record of the later ones
 * @param options - see `CompareEquipmentOptions`
 * @returns verdict, differing and unknown fields, the difference of the delay and its effects; plain data
 * @throws TypeError or RangeError if a record has no name, a number is not above 0, or an option is out of range
 * @see parts of the delay: the page of `latencyBudget`; that corrections pay and the primary hardly does: Friston, Karlstrom and Steed 2016 (abstract)
 * @example
 * ```ts
 * const { verdict, delay } = compareEquipment({ id: "old", refreshHz: 60, latency: 0.08 }, { id: "new", refreshHz: 240, latency: 0.02 });
 * verdict; // => "differs"
 * delay; // => { ok: true, value: -0.06, unit: "s", n: 2, interval: [-0.0655, -0.0545], level: 0.95 }
 * ```
 */
export function compareEquipment(before: Equipment, after: Equipment, options: CompareEquipmentOptions = {}): EquipmentComparison {
  requireEquipment(WHERE, "before", before);
  requireEquipment(WHERE, "after", after);
  requireObject(WHERE, "options", options);
  const { loops = 1, responses = 1, timingSd = 0.025, level = 0.95 } = options;
  requireNumber(WHERE, "options.loops", loops, 0);
  requireNumber(WHERE, "options.responses", responses, 0, 1);
  requireNumber(WHERE, "options.timingSd", timingSd, 0, undefined, true);
  requireLevel(WHERE, level);
  const differing = FIELDS.filter((field) => before[field] !== undefined && after[field] !== undefined && before[field] !== after[field]);
  const oneSided = FIELDS.filter((field) => (before[field] === undefined) !== (after[field] === undefined));
  const neither = TELLS_DELAY.filter((field) => before[field] === undefined && after[field] === undefined);
  const sameName = before.id === after.id;
  const verdict = differing.length > 0 ? "differs" : sameName ? "same" : "unknown";
  const delay: Estimate =
    verdict === "same" ? { ok: true, value: 0, unit: "s", n: 2, interval: [0, 0], level } : delayDifference(before, after, level);
  const onlyDelay = differing.every((field) => DELAY_FIELDS.includes(field)) && verdict !== "unknown";
  return {
    verdict,
    differing,
    unknown: [...oneSided, ...neither],
    delay,
    effects: [
      ...(delay.ok && onlyDelay
        ? [...timeEffects(delay, loops, responses), timingEffect(before, after, timingSd, verdict === "same")]
        : []),
      ...lengthEffects(before, after),
    ],
    reason: reasonOf(before, after, differing, verdict, delay),
  };
}

function timeEffects(delay: Estimate & { ok: true }, loops: number, responses: number): EquipmentEffect[] {
  return delayPayments(loops, responses).map(({ measure, times: [low, high], reason }) => {
    const change = times(delay, low, high);
    return { measure, change: measure === "primaryError" ? { ...change, unit: "W" } : change, reason };
  });
}

/** The delay paid `low` to `high` times: the interval spans both. */
function times({ value, interval = [0, 0], ...rest }: Estimate & { ok: true }, low: number, high: number): Estimate {
  const ends = [low, high].flatMap((count) => interval.map((end) => count * end));
  return { ...rest, value: zero(((low + high) / 2) * value), interval: [zero(Math.min(...ends)), zero(Math.max(...ends))] };
}

/** A negative zero is a zero. */
function zero(value: number): number {
  return value === 0 ? 0 : value;
}

function reasonOf(
  before: Equipment,
  after: Equipment,
  differing: readonly EquipmentField[],
  verdict: EquipmentComparison["verdict"],
  delay: Estimate,
): string {
  if (verdict === "same") return `Both records name the same equipment, ${after.id}.`;
  if (verdict === "unknown")
    return `The equipment has another name (${before.id}, then ${after.id}), and the records do not say in what it differs.`;
  const changes = differing
    .map((field) => `${FIELD_WORDS[field]} ${valueWords(field, before)} then ${valueWords(field, after)}`)
    .join(", ");
  const seen = delay.ok
    ? `What happens is seen ${Math.abs(1000 * delay.value).toFixed(1)} ms ${delay.value < 0 ? "earlier" : "later"}.`
    : "By how much the delay differs cannot be told from the records.";
  return `The equipment differs: ${changes}. ${seen}`;
}

const FIELD_WORDS: Readonly<Record<EquipmentField, string>> = {
  refreshHz: "refresh rate",
  frameCapHz: "frame cap",
  latency: "delay",
  reportHz: "report rate",
  countsPerInch: "counts per inch",
  mmPerPx: "pixel size",
  viewDistanceMm: "viewing distance",
  degPerCount: "turn per count",
  fieldOfViewDeg: "field of view",
};
const FIELD_UNITS: Readonly<Record<EquipmentField, string>> = {
  refreshHz: " Hz",
  frameCapHz: " Hz",
  latency: " ms",
  reportHz: " Hz",
  countsPerInch: "",
  mmPerPx: " mm",
  viewDistanceMm: " mm",
  degPerCount: " deg",
  fieldOfViewDeg: " deg",
};

function valueWords(field: EquipmentField, equipment: Equipment): string {
  const value = equipment[field]!;
  return `${Number((field === "latency" ? 1000 * value : value).toPrecision(6))}${FIELD_UNITS[field]}`;
}
