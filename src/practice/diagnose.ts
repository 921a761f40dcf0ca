import { requireInteger, requireNumber, requireObject, requireSeed } from "../math/require.js";
import { VERSION } from "../math/version.js";
import { chanceLargest } from "./diagnosis/chance-largest.js";
import { counterfactuals, hitShare } from "./diagnosis/counterfactuals.js";
import { equipmentBurden } from "./diagnosis/equipment-burden.js";
import { findParts, totalGap } from "./diagnosis/find-parts.js";
import { gapEstimate } from "./diagnosis/gap.js";
import { meanOf } from "./diagnosis/law-within.js";
import { ownBest } from "./diagnosis/own-best.js";
import { type Compared, leadingPart, NO_BURDEN } from "./diagnosis/part-gaps.js";
import type { PlainRow } from "./diagnosis/plain-row.js";
import { reachVerdict } from "./diagnosis/reach-verdict.js";
import { type DiagnoseReference, LEAST_SESSIONS, readSides, type Sides } from "./diagnosis/reference-kind.js";
import { expectedTime, referenceLaws } from "./diagnosis/reference-laws.js";
import { PARTS } from "./diagnosis/row-excess.js";
import { ruleOnEquipment } from "./diagnosis/rule-on-equipment.js";
import { ruleOnFatigue } from "./diagnosis/rule-on-fatigue.js";
import { ruleOnPace } from "./diagnosis/rule-on-pace.js";
import { ruleOnSampling } from "./diagnosis/rule-on-sampling.js";
import { meanExcess, sessionExcess, type UnitExcess } from "./diagnosis/unit-excess.js";
import type { Diagnosis, PractisedSession } from "./types.js";

const WHERE = "diagnose";
/** Fewest acquisitions on either side. */
const LEAST_ROWS = 100;

/** Options of `diagnose`. */
export interface DiagnoseOptions {
  /**
   * Whom the person is set against. `"ownBest"` (the default): the later half of the sessions, three at least, against the best three in a row of those before,
   * drawn back toward their mean as far as they may be luck. `{ earlier }`: sessions of an earlier period. `{ group }`: the sessions of each person of a group
   * that the person does not belong to; what members ordinarily differ by is then no weakness.
   */
  readonly reference?: DiagnoseReference;
  /** Confidence level of the intervals, 0.6 to 0.9999, default 0.95. A part is named at (1 - level)/4 one-sided, four parts being looked at. Raised, less is named. */
  readonly level?: number;
  /** Resamples of sessions for `probabilityLargest`, 100 to 100000, default 2000. More give a finer probability and take longer. */
  readonly resamples?: number;
  /** Start of the random numbers, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Smallest excess worth naming, as a share of the reference's time per acquisition, above 0 and at most 0.5: a choice, default 0.02. Raised, less is named. */
  readonly worthwhile?: number;
}

/**
 * What holds a person back: a part of the movement, the sampling, the equipment, the pace, tiredness, nothing that stands out, or not to be told.
 *
 * Each part's time is set against the reference's at the same log2(A/W + 1), given what the part received: correcting given the error the primary left,
 * stopping and pressing given the error at the stop. What a part's errors would cost the reference later is charged to it (`passedOn`). The parts' excesses
 * add up to the whole. Sessions are the units (Welch); of a group the spread between its people counts too. Other explanations are excluded first, in the
 * order of `rulings`; a display's delay is taken off latency once and off correcting once per correction. A part is named when its excess is beyond
 * `detectable` and `worthwhile` and largest in at least 0.8 of the resamples; below 3 sessions or 100 acquisitions on either side: `tooFew`.
 * Cost O(rows + resamples sessions).
 *
 * @param sessions - the person's sessions, in any order; rows that cannot be read (flags) are left out
 * @param options - see `DiagnoseOptions`
 * @returns verdict, parts (largest excess first), rulings in words, hits as they were and as they would have been; see `Diagnosis`
 * @throws TypeError or RangeError if the sessions or an option are not as described
 * @see Welch 1947; Efron 1979 (bootstrap); Fitts 1954 and MacKenzie 1992 (difficulty); Schmidt et al. 1979 (speed and accuracy of aimed movements) (all recalled)
 * @example
 * ```ts
 * const session = (day: number, mu: number) => {
 *   const { recording } = simulateRecording({ seed: day, movements: 40, latency: { mu } });
 *   return { startedAt: `2026-03-0${day}T18:00:00Z`, equipment: { id: "desk" }, rows: analyze(recording) };
 * };
 * const earlier = [1, 2, 3].map((day) => session(day, 0.2));
 * diagnose([4, 5, 6].map((day) => session(day, 0.32)), { reference: { earlier } }).verdict; // => { kind: "weakestPart", part: "nextTarget" }
 * ```
 */
export function diagnose(sessions: readonly PractisedSession[], options: DiagnoseOptions = {}): Diagnosis {
  const { reference = "ownBest", level = 0.95, resamples = 2000, seed = 1, worthwhile = 0.02 } = requireOptions(options);
  const sides = readSides(WHERE, sessions, reference);
  const now = sides.now.map(({ rows }) => rows);
  const units = sides.units.map((unit) => unit.flatMap(({ rows }) => rows));
  const laws = referenceLaws(units);
  const people = sides.kind === "group";
  const compared: Compared = { now: now.map((rows) => sessionExcess(rows, laws)), reference: referenceExcess(sides, laws), people };
  const expected = meanOf(now.map((rows) => meanOf(rows.map((row) => expectedTime(laws, row)))));
  const bar = { tail: (1 - level) / PARTS.length, worth: worthwhile * expected };

  const found = equipmentBurden(sides.now, sides.units.flat());
  const burden = found.kind === "delay" ? found.burden : NO_BURDEN;
  const leader = leadingPart(compared, burden, bar);
  const measured = leadingPart(compared, NO_BURDEN, bar);
  const rulings = [
    ruleOnSampling(sides.given.now, sides.given.reference),
    ruleOnEquipment({ found, worth: bar.worth, level, sessions: now.length, measured, corrected: leader }),
    ruleOnPace({ now, reference: units, people, laws, bar, level }),
    ruleOnFatigue({ now, reference: sides.units.map((unit) => unit.map(({ rows }) => rows)), people, laws, burden, bar, level, leader }),
  ];
  const chances = chanceLargest(compared, burden, bar, resamples, seed);
  const parts = findParts({ compared, burden, bar, level, chances, rulings });
  return {
    header: { library: "aimed-movement", version: VERSION, schema: 1, options: { level, resamples, seed, worthwhile } },
    verdict: reachVerdict({ enough: enough(now, units), rulings, parts, leader, expected }),
    parts,
    rulings,
    totalExcess: gapEstimate(totalGap(compared, burden), "s", level, now.length),
    hitShare: hitShare(now, level),
    counterfactuals: counterfactuals(now, units, level),
    reference: {
      kind: sides.kind,
      sessions: people ? sides.units.flat().length : compared.reference.length,
      people: people ? units.length : Math.min(1, units.length),
      rows: count(units),
    },
    sessions: now.length,
    rows: count(now),
  };
}

function requireOptions(options: DiagnoseOptions): DiagnoseOptions {
  requireObject(WHERE, "options", options);
  const { level, resamples, seed, worthwhile, reference } = options;
  if (level !== undefined) requireNumber(WHERE, "options.level", level, 0.6, 0.9999);
  if (resamples !== undefined) requireInteger(WHERE, "options.resamples", resamples, 100, 100000);
  if (seed !== undefined) requireSeed(WHERE, seed);
  if (worthwhile !== undefined) requireNumber(WHERE, "options.worthwhile", worthwhile, 0, 0.5, true);
  if (typeof reference === "string" && reference !== "ownBest") {
    throw new RangeError(`${WHERE}: options.reference must be "ownBest", { earlier } or { group }, got ${JSON.stringify(reference)}`);
  }
  return options;
}

/** The units of the reference: sessions, the best three of them, or people as the means of their sessions. */
function referenceExcess({ kind, units }: Sides, laws: ReturnType<typeof referenceLaws>): readonly UnitExcess[] {
  const means = units.map((unit) => meanExcess(unit.map(({ rows }) => sessionExcess(rows, laws))));
  return kind === "ownBest" ? ownBest(means) : means;
}

function enough(now: readonly (readonly PlainRow[])[], units: readonly (readonly PlainRow[])[]): boolean {
  const fewest = Math.min(now.length, units.length);
  return fewest >= LEAST_SESSIONS && Math.min(count(now), count(units)) >= LEAST_ROWS;
}

function count(lists: readonly (readonly PlainRow[])[]): number {
  return lists.reduce((sum, rows) => sum + rows.length, 0);
}
