// Every measure of an acquisition row that the choice-reach recordings can give, with the range that is known from elsewhere.
// They have no releases, so that press duration, slip and departure have no value here.
import type { Acquisition, Correction } from "../../src/movement/types.js";
import type { Measure } from "./measure.js";
import type { ReachRow } from "./reach-rows.js";

const CURSOR_JUMP = "0.42 to 0.65 of an unseen jump of the cursor (Veyrat-Masson, Briere and Proteau 2010, abstract read)";
const LATENCY = "100 to 150 ms from an error seen to its correction (from memory)";
const BRAKING = "0.5 for minimum jerk, 0.5 to 0.7 in aimed movements (from memory)";

type Stop = NonNullable<Acquisition["stop"]>;

const row =
  <T>(of: (row: Acquisition) => T) =>
  (reach: ReachRow): T =>
    of(reach.row);
const needed = (corrections: readonly Correction[]): Correction[] => corrections.filter((correction) => !correction.unnecessary);
const stop = (name: string, unit: string, of: (stop: Stop) => number | undefined, known?: string): Measure<ReachRow> => ({
  name: `stopping/choice-reach ${name}`,
  unit,
  of: row(({ stop }) => stop && of(stop)),
  ...(known !== undefined && { known }),
});
const corrections = (name: string, unit: string, of: (row: Acquisition) => number | undefined | readonly number[], known?: string) => ({
  name: `corrections/choice-reach ${name}`,
  unit,
  of: row(of),
  ...(known !== undefined && { known }),
});
const economy = (name: string, unit: string, of: (row: Acquisition) => number | undefined, known?: string) => ({
  name: `economy/choice-reach ${name}`,
  unit,
  of: row(of),
  ...(known !== undefined && { known }),
});

/** Corrections. */
const CORRECTIONS: readonly Measure<ReachRow>[] = [
  corrections("corrections per movement", "1", (r) => r.corrections.length, "1 to 2 in mouse pointing (from memory)"),
  corrections("latency of the first correction", "s", (r) => r.corrections[0]?.latency, LATENCY),
  corrections("primary's peak to first correction", "s", (r) => r.corrections[0] && r.corrections[0].start - r.times.peak!, LATENCY),
  corrections("rest among corrections", "s", (r) => (r.corrections.length > 0 ? r.correctionPhase?.pause : undefined)),
  corrections("duration of a correction", "s", (r) => r.corrections.map(({ start, end }) => end - start)),
  corrections("length of a correction over width", "1", (r) => r.corrections.map(({ amplitude }) => amplitude / r.width)),
  corrections("gain of a needed correction", "1", (r) => needed(r.corrections).flatMap(({ gain }) => gain ?? []), CURSOR_JUMP),
  corrections("direction error of a needed correction", "deg", (r) =>
    needed(r.corrections).flatMap(({ directionErrorDeg }) => (directionErrorDeg === undefined ? [] : Math.abs(directionErrorDeg))),
  ),
  corrections("efficiency of the phase", "1", (r) => (r.corrections.length > 0 ? r.correctionPhase?.efficiency : undefined)),
  corrections("net efficiency of the phase", "1", (r) => (r.corrections.length > 0 ? r.correctionPhase?.netEfficiency : undefined)),
  corrections("time in corrections", "s", (r) => r.budget.correction),
  corrections("error of the primary along", "px", (r) => r.errors.primary?.along),
];

/** Stop and press. */
const STOPPING: readonly Measure<ReachRow>[] = [
  stop("deceleration share", "1", (s) => s.decelerationShare, BRAKING),
  stop("deceleration share of the primary", "1", (s) => s.primaryDecelerationShare, BRAKING),
  stop("skew of speed", "1", (s) => s.speedSkew, "0 for minimum jerk, above 0 for long braking (closed form)"),
  stop("peak deceleration", "px/s^2", (s) => s.peakDeceleration),
  stop("stopping time", "s", (s) => s.stoppingTime),
  stop("stopping distance", "px", (s) => s.stoppingDistance),
  stop("overshoot beyond the centre", "px", (s) => s.overshoot),
  stop("settling time", "s", (s) => s.settlingTime),
  {
    name: "stopping/choice-reach verification time",
    unit: "s",
    of: row((r) => r.budget.verification),
    known: "0.1 to 0.3 s (from memory)",
  },
  { name: "stopping/choice-reach press minus stop", unit: "s", of: row((r) => r.pressing?.afterStop) },
  { name: "stopping/choice-reach speed before the press", unit: "px/s", of: row((r) => r.pressing?.speed) },
  { name: "stopping/choice-reach disturbance about the press", unit: "px", of: row((r) => r.pressing?.disturbance) },
];

/** Economy and smoothness, and what they are read with. */
const ECONOMY: readonly Measure<ReachRow>[] = [
  economy("path efficiency", "1", (r) => r.economy?.efficiency),
  economy("path beyond need in the primary", "px", (r) => r.economy?.excess?.primary),
  economy("path beyond need in corrections", "px", (r) => r.economy?.excess?.correction),
  economy("path beyond need in verification", "px", (r) => r.economy?.excess?.verification),
  economy("largest deviation", "px", (r) => r.economy?.largestDeviation),
  economy("mean deviation", "px", (r) => r.economy?.meanDeviation),
  economy("reversals along the axis", "1", (r) => r.economy?.reversals),
  economy("entries", "1", (r) => r.economy?.entries),
  economy(
    "spectral arc length",
    "1",
    (r) => r.economy?.spectralArcLength,
    "-1.41 for one minimum-jerk stroke (computed), -1.4 to -2 in healthy reaching (from memory)",
  ),
  economy(
    "log dimensionless jerk",
    "1",
    (r) => r.economy?.logDimensionlessJerk,
    "-5.32 for minimum jerk (closed form), -6 to -8 in healthy reaching (from memory)",
  ),
];

/** When it began and how fast it was. */
const MOVEMENT: readonly Measure<ReachRow>[] = [
  {
    name: "movement/choice-reach latency",
    unit: "s",
    of: row((r) => r.budget.latency),
    known: "0.18 to 0.25 s without a choice (from memory)",
  },
  { name: "movement/choice-reach onset to press", unit: "s", of: row((r) => r.times.end - r.times.onset!) },
  { name: "movement/choice-reach peak speed", unit: "px/s", of: row((r) => r.peakSpeed) },
];

export const REACH_MEASURES: readonly Measure<ReachRow>[] = [...CORRECTIONS, ...STOPPING, ...ECONOMY, ...MOVEMENT];

/** What 25 Hz of uneven polling spoils, to be taken again with a filter below it. */
export const SPOILED: readonly string[] = [
  "corrections/choice-reach corrections per movement",
  "corrections/choice-reach gain of a needed correction",
  "corrections/choice-reach error of the primary along",
  "corrections/choice-reach length of a correction over width",
  "stopping/choice-reach deceleration share of the primary",
  "economy/choice-reach spectral arc length",
  "economy/choice-reach log dimensionless jerk",
];
