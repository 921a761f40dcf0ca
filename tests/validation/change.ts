// Verdicts on a change between two periods, on simulated sessions whose truth is known: how often they are wrong, how often they see a change, and what
// likeness of neighbouring sessions does to both. Then the intervals of reliability.
import { type CompareOptions, compare } from "../../src/learning/compare.js";
import { reliability } from "../../src/learning/reliability.js";
import { autocorrelatedMean } from "../../src/math/autocorrelated-mean.js";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom, type Random } from "../../src/math/random.js";
import { studentPower } from "../../src/math/student-power.js";
import type { Figure, Outcome } from "./figure.js";

const SEED = 20261203;
const SOURCE = "simulated sessions, log-normal, autoregression of the first order";
/** Session SD in percent of the level, autocorrelation, and sessions in each period. */
const NOISES = [1, 2, 3, 5] as const;
const LIKENESS = [0, 0.3, 0.6] as const;
const LENGTHS = [3, 5, 7, 10, 20] as const;
const WORTHWHILE = 2;
/** From so many sessions on the interval has to hold what it says. */
const ENOUGH = 5;

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const cells = LIKENESS.flatMap((r) => LENGTHS.map((k) => study(r, k, quick ? 300 : 2000)));
  return [
    ...cells.flatMap(coverageFigures),
    ...LIKENESS.flatMap((r) => NOISES.map((noise) => equivalenceFigure(r, noise, cells))),
    ...cells.filter(({ r }) => r === 0).flatMap(powerFigures),
    ...medianFigures(quick ? 100 : 2000),
    ...[10, 30].flatMap((people) => reliabilityFigures(people, quick ? 300 : 2000)),
  ];
}

/** What came out of the simulated pairs of periods of one length and likeness. */
interface Cell {
  readonly r: number;
  readonly k: number;
  /** Pairs without a change, over all noises; a change in percent does not know how large the noise was. */
  readonly none: { readonly runs: number; readonly alarms: number; readonly told: number };
  /** Pairs with an improvement of exactly the worthwhile size, by noise. */
  readonly border: Readonly<Record<number, Border>>;
}

interface Border {
  readonly runs: number;
  readonly held: number;
  readonly equivalent: number;
  readonly better: number;
  /** Median of the sessions said to be needed over those that are; Infinity where none are said. */
  readonly needed: number;
}

function study(r: number, k: number, runs: number): Cell {
  const random = createRandom(SEED, 100 * k + 10 * r);
  let [alarms, told] = [0, 0];
  const each = Math.ceil(runs / NOISES.length);
  for (const noise of NOISES) {
    for (let run = 0; run < each; run++) {
      const [before, after] = [sessions(random, k, noise, r), sessions(random, k, noise, r)];
      if (called(before, after, {})) alarms++;
      if (called(before, after, { autocorrelation: r })) told++;
    }
  }
  const border = Object.fromEntries(NOISES.map((noise) => [noise, atBorder(random, k, noise, r, runs)]));
  return { r, k, none: { runs: each * NOISES.length, alarms, told }, border };
}

/** Logarithms with this standard deviation, those of neighbours correlated. */
function sessions(random: Random, k: number, noise: number, r: number, level = 1): Float64Array {
  const sd = noise / 100;
  let now = random.normal();
  return Float64Array.from({ length: k }, () => {
    const value = level * Math.exp(sd * now);
    now = r * now + Math.sqrt(1 - r * r) * random.normal();
    return value;
  });
}

function called(before: Float64Array, after: Float64Array, options: CompareOptions): boolean {
  const { verdict } = compare(before, after, { permutations: 99, ...options });
  return verdict === "better" || verdict === "worse";
}

function atBorder(random: Random, k: number, noise: number, r: number, runs: number): Border {
  let [held, equivalent, better] = [0, 0, 0];
  const needed: number[] = [];
  for (let run = 0; run < runs; run++) {
    const before = sessions(random, k, noise, r);
    const result = compare(before, sessions(random, k, noise, r, 1 - WORTHWHILE / 100), { permutations: 99 });
    held += holds(result.change, -WORTHWHILE);
    if (result.verdict === "equivalent") equivalent++;
    if (result.verdict === "better") better++;
    needed.push(result.sessionsNeeded.ok ? result.sessionsNeeded.value : Number.POSITIVE_INFINITY);
  }
  const middle = Float64Array.from(needed).sort()[runs >> 1]!;
  return { runs, held, equivalent, better, needed: middle / trulyNeeded(noise / 100, r) };
}

function holds(estimate: Estimate, truth: number): number {
  return estimate.ok && estimate.interval && estimate.interval[0] <= truth && truth <= estimate.interval[1] ? 1 : 0;
}

/** The smallest number of sessions a period with a power of 0.8, by walking up from two. */
function trulyNeeded(sd: number, r: number): number {
  const size = -Math.log1p(-WORTHWHILE / 100) / sd;
  for (let k = 2; ; k++) {
    const { variance, df } = autocorrelatedMean(k, r);
    if (studentPower(size / Math.sqrt(2 * variance), 2 * df, 0.05) >= 0.8) return k;
  }
}

/** The band of a share among runs that chance leaves once in two thousand lines, to either side. */
const band = (share: number, runs: number): number => 3.5 * Math.sqrt((share * (1 - share)) / runs);

function atMost(name: string, count: number, runs: number, share = 0.05): Figure {
  const most = share + band(share, runs);
  const bar = `<= ${100 * share} % (chance among ${runs} runs: ${(100 * most).toFixed(1)} %)`;
  return { name, value: (100 * count) / runs, bar, ok: count / runs <= most, source: SOURCE };
}

function within(name: string, count: number, runs: number): Figure {
  const half = runs >= 2000 ? 0.02 : Math.max(0.02, band(0.95, runs));
  const bar = `${(95 - 100 * half).toFixed(1)} to ${Math.min(100, 95 + 100 * half).toFixed(1)} %`;
  return { name, value: (100 * count) / runs, bar, ok: Math.abs(count / runs - 0.95) <= half + 1e-9, source: SOURCE };
}

function printed(name: string, value: number): Figure {
  return { name, value, bar: "printed", ok: true, source: SOURCE };
}

function coverageFigures({ r, k, none, border }: Cell): Figure[] {
  const cell = `${k} sessions a period, autocorrelation ${r}`;
  const runs = NOISES.reduce((sum, noise) => sum + border[noise]!.runs, 0);
  const held = NOISES.reduce((sum, noise) => sum + border[noise]!.held, 0);
  const coverage = `learning/compare, coverage of the change, ${cell}, %`;
  const alarms = `learning/compare, better or worse without a change, ${cell}, %`;
  const lines = [
    r === 0 && k >= ENOUGH ? within(coverage, held, runs) : printed(coverage, (100 * held) / runs),
    r === 0 ? atMost(alarms, none.alarms, none.runs) : printed(alarms, (100 * none.alarms) / none.runs),
  ];
  if (r > 0) lines.push(atMost(`learning/compare, the same when told the autocorrelation, ${cell}, %`, none.told, none.runs));
  return lines;
}

/** The worst over the lengths of the periods. */
function equivalenceFigure(r: number, noise: number, cells: readonly Cell[]): Figure {
  const name = `learning/compare, equivalent at a change of just ${WORTHWHILE} %, session SD ${noise} %, autocorrelation ${r}, worst length, %`;
  const here = cells.filter((cell) => cell.r === r).map(({ border }) => border[noise]!);
  const worst = here.reduce((most, border) => (border.equivalent > most.equivalent ? border : most));
  return r === 0 ? atMost(name, worst.equivalent, worst.runs) : printed(name, (100 * worst.equivalent) / worst.runs);
}

function powerFigures({ k, border }: Cell): Figure[] {
  return NOISES.flatMap((noise) => {
    const { better, runs, needed } = border[noise]!;
    const cell = `${k} sessions a period, session SD ${noise} %`;
    const name = `learning/compare, sessions needed over those truly needed, ${cell}, median`;
    const lines = [printed(`learning/compare, better at an improvement of ${WORTHWHILE} %, ${cell}, %`, (100 * better) / runs)];
    const bar = `0.7 to 1.3`;
    if (k >= ENOUGH) lines.push({ name, value: needed, bar, ok: needed >= 0.7 && needed <= 1.3, source: SOURCE });
    else if (Number.isFinite(needed)) lines.push(printed(name, needed));
    return lines;
  });
}

/** Medians of independent sessions. */
function medianFigures(runs: number): Figure[] {
  const random = createRandom(SEED, 7);
  return [5, 7, 10, 20].flatMap((k) =>
    [false, true].map((paired) => {
      let alarms = 0;
      for (let run = 0; run < runs; run++) {
        const options = { centre: "median", paired, seed: run } as const;
        if (called(sessions(random, k, 2, 0), sessions(random, k, 2, 0), options)) alarms++;
      }
      const name = `learning/compare, better or worse without a change, medians${paired ? " of paired differences" : ""}, ${k} sessions a period, %`;
      return atMost(name, alarms, runs);
    }),
  );
}

/** People SD 2, errors SD 1, sessions SD 0.5: all normal. */
function reliabilityFigures(people: number, runs: number): Figure[] {
  const random = createRandom(SEED, people);
  const truths = { "1,1": 4 / 5.25, "2,1": 4 / 5.25, "3,1": 4 / 5 } as const;
  return [3, 5].flatMap((count) => {
    const held = { "1,1": 0, "2,1": 0, "3,1": 0, error: 0, pair: 0, limit: 0 };
    for (let run = 0; run < runs; run++) {
      const common = Array.from({ length: count }, () => random.normal(0, 0.5));
      const scores = Array.from({ length: people }, () => {
        const person = random.normal(20, 2);
        return common.map((session) => person + session + random.normal());
      });
      const { icc, typicalError, pairs } = reliability(scores);
      for (const form of ["1,1", "2,1", "3,1"] as const) held[form] += holds(icc[form], truths[form]);
      held.error += holds(typicalError, 1);
      held.pair += holds(pairs[0]!.typicalError, 1);
      held.limit += holds(pairs[0]!.limits.high, common[1]! - common[0]! + 1.96 * Math.SQRT2);
    }
    const cell = `${people} people, ${count} sessions`;
    const source = "simulated scores of people, sessions and errors, normal";
    return [
      // one-way intervals take sessions as interchangeable: a change common to all breaks that
      printed(`learning/reliability, coverage of ICC(1,1) where sessions differ, ${cell}, %`, (100 * held["1,1"]) / runs),
      within(`learning/reliability, coverage of ICC(2,1), ${cell}, %`, held["2,1"], runs),
      within(`learning/reliability, coverage of ICC(3,1), ${cell}, %`, held["3,1"], runs),
      within(`learning/reliability, coverage of the typical error, ${cell}, %`, held.error, runs),
      within(`learning/reliability, coverage of the typical error of a pair, ${cell}, %`, held.pair, runs),
      within(`learning/reliability, coverage of a limit of agreement, ${cell}, %`, held.limit, runs),
    ].map((line) => ({ ...line, source }));
  });
}
