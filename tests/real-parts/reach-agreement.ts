// What the reference of the choice-reach recordings says, beside what the rows say of the same trials.
import type { Figure, Outcome } from "../validation/figure.js";
import { printed } from "./measure.js";
import type { ReachRow } from "./reach-rows.js";
import { recordingFacts } from "./reference.js";
import { meanOfPersons, rankCorrelation } from "./spread.js";

const REACH = "choice-reach recordings (Kieslich and Henninger 2017)";
const FACTS = "facts.json by NumPy";
/** An onset or stop farther from the first or last change of a reading than this is not one, seconds: four times the spread that timing is asked to have. */
const ASTRAY = 0.1;
/** The reference keeps six decimals. */
const PRINTED = 5e-6;

/** Mean of the persons' means over the trials answered rightly, as the data's own figures have it. */
export function conditions(rows: readonly ReachRow[]): Outcome[] {
  const known = recordingFacts("choice-reach").conditionMeans;
  const of = (word: ReachRow["word"], pick: (row: ReachRow) => number): number =>
    meanOfPersons(
      rows.filter((row) => row.correct && row.word === word),
      pick,
    );
  const ordered = (name: string, pick: (row: ReachRow) => number, fact: string): Outcome[] => {
    const [typical, atypical] = [of("typical", pick), of("atypical", pick)];
    const [low, high]: [number, number] = [known.typical[fact], known.atypical[fact]];
    const sense = high > low ? "more" : "less";
    const ok = Math.sign(atypical - typical) === Math.sign(high - low);
    const bar = `${sense} with atypical words, as ${fact}: ${low.toPrecision(4)} and ${high.toPrecision(4)}`;
    return [
      { name: `${name}, typical words`, value: typical, bar: "printed", ok: true, source: REACH },
      { name: `${name}, atypical words`, value: atypical, bar, ok, source: `${REACH}; ${FACTS}` },
    ];
  };
  const plain = (name: string, pick: (row: ReachRow) => number): Outcome[] =>
    (["typical", "atypical"] as const).map((word) => printed(`${name}, ${word} words`, of(word, pick), "mean of 16 people", REACH));
  return [
    ...ordered("economy/choice-reach largest deviation", ({ row }) => row.economy!.largestDeviation!, "towardOther_px"),
    ...ordered("economy/choice-reach path length", ({ row }) => row.economy!.pathLength, "pathLength_px"),
    ...ordered("economy/choice-reach path efficiency", ({ row }) => row.economy!.efficiency!, "efficiency"),
    ...ordered("movement/choice-reach latency", ({ row }) => row.budget.latency, "firstChange_ms"),
    ...ordered("stopping/choice-reach verification time", ({ row }) => row.budget.verification, "finalHold_ms"),
    ...plain("corrections/choice-reach corrections per movement", ({ row }) => row.corrections.length),
    ...plain("stopping/choice-reach deceleration share", ({ row }) => row.stop!.decelerationShare),
    ...plain("economy/choice-reach spectral arc length", ({ row }) => row.economy!.spectralArcLength!),
  ];
}

/** What the reference says of the same trials. */
export function agreement(rows: readonly ReachRow[]): Outcome[] {
  const source = `${REACH}; ${FACTS}`;
  const all = (name: string, test: (row: ReachRow) => boolean, share: number): Figure => {
    const value = rows.filter(test).length / rows.length;
    return { name, value, bar: share === 1 ? `= 1 (of ${rows.length})` : `>= ${share} (of ${rows.length})`, ok: value >= share, source };
  };
  const alike = (name: string, a: (row: ReachRow) => number, b: (row: ReachRow) => number): Figure => {
    const value = rankCorrelation(rows.map(a), rows.map(b));
    return { name, value, bar: ">= 0.95", ok: value >= 0.95, source };
  };
  const smoothness = (key: "spectralArcLength" | "logDimensionlessJerk"): number =>
    rankCorrelation(
      rows.map(({ row }) => row.economy![key]!),
      rows.map(({ row }) => row.times.end - row.times.onset!),
    );
  const bayle = `${REACH}; Bayle et al. 2023 (abstract read): jerk goes with movement time, arc length does not`;
  return [
    all(
      "movement/choice-reach time from go to press equal to the response time",
      ({ row, facts }) => Math.abs(row.times.end - row.times.go - facts.responseTime_ms / 1000) < 1e-6,
      1,
    ),
    alike(
      "economy/choice-reach path efficiency, rank correlation with the reference",
      ({ row }) => row.economy!.efficiency!,
      ({ facts }) => facts.efficiency,
    ),
    all(
      "economy/choice-reach path length of the raw samples equal to the reference",
      ({ raw, facts }) => Math.abs(raw.pathLength - facts.pathLength_px) < PRINTED,
      1,
    ),
    all(
      "economy/choice-reach path efficiency of the raw samples equal to the reference",
      ({ raw, facts }) => Math.abs(raw.efficiency - facts.efficiency) < PRINTED,
      1,
    ),
    all(
      "economy/choice-reach largest deviation of the raw samples equal to the reference",
      ({ raw, facts }) => Math.abs(raw.largestDeviation - Math.abs(facts.acrossExtreme_px)) < PRINTED,
      1,
    ),
    printed(
      "economy/choice-reach largest deviation, rank correlation with the reference",
      rankCorrelation(
        rows.map(({ row }) => row.economy!.largestDeviation!),
        rows.map(({ facts }) => Math.abs(facts.acrossExtreme_px)),
      ),
      "no unit; its axis leads to where the movement ended, ours to the centre",
      source,
    ),
    all("economy/choice-reach entries as many as the raw samples show", ({ row, rawEntries }) => row.economy!.entries === rawEntries, 0.95),
    all(
      "movement/choice-reach onset at most 0.1 s before the first change of the reading",
      ({ row, facts }) => row.budget.latency > facts.firstChange_ms / 1000 - ASTRAY,
      0.95,
    ),
    all(
      "stopping/choice-reach stop at most 0.1 s after the last change of the reading",
      ({ row, facts }) => facts.finalHold_ms / 1000 - row.pressing!.afterStop! < ASTRAY,
      0.95,
    ),
    printed(
      "economy/choice-reach log dimensionless jerk, rank correlation with time from onset",
      smoothness("logDimensionlessJerk"),
      "no unit",
      bayle,
    ),
    printed(
      "economy/choice-reach spectral arc length, rank correlation with time from onset",
      smoothness("spectralArcLength"),
      "no unit",
      bayle,
    ),
  ];
}
