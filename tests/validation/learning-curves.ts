// Intervals of learning curves on simulated learners whose law is known: how often they hold the truth with independent errors and with errors of which
// neighbours are alike, how often the result says so, and what the wrong kind of errors costs.
import { type FitLearningCurveOptions, fitLearningCurve, type LearningCurveFit } from "../../src/learning/fit-learning-curve.js";
import { createRandom, type Random } from "../../src/math/random.js";
import type { Figure, Outcome } from "./figure.js";

const SEED = 20261205;
const SOURCE = "simulated learners, 40 sessions, log-normal errors, autoregression of the first order";
const SESSIONS = 40;
/** Session SD in percent of the level, and autocorrelation. */
const NOISES = [1, 2, 3, 5] as const;
const LIKENESS = [0, 0.3, 0.6] as const;
const LAWS = {
  exponential3: { a: 0.6, b: 0.6, c: 0.12, at: (n: number) => 0.6 + 0.6 * Math.exp(-0.12 * (n - 1)) },
  power3: { a: 0.45, b: 1.2, c: 0.6, at: (n: number) => 0.45 + 1.2 * n ** -0.6 },
} as const;
type Law = keyof typeof LAWS;
const NAMES = Object.keys(LAWS) as Law[];
const LETTERS = ["a", "b", "c"] as const;
const PRACTICE = Array.from({ length: SESSIONS }, (_, i) => i + 1);
/** Half width of the band of a share, in standard errors: of 99 %. */
const BAND = 2.576;

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const runs = quick ? 150 : 1000;
  const cells = NAMES.flatMap((law) => LIKENESS.flatMap((r) => NOISES.map((noise) => study(law, r, noise, runs))));
  return [
    ...cells.filter(({ r }) => r === 0).flatMap((cell) => LETTERS.map((letter) => coverageFigure(cell, letter, quick))),
    ...cells.filter(({ r }) => r > 0).map(pooledFigure),
    ...cells.filter(({ r }) => r === 0).map((cell) => nextFigure(cell, quick)),
    ...NAMES.flatMap((law) => LIKENESS.map((r) => identifiedFigure(law, r, cells))),
    ...NAMES.flatMap((law) => LIKENESS.map((r) => saidFigure(law, r, cells))),
    ...NAMES.flatMap((law) => mismatchFigures(law, runs)),
    ...outlierFigures(runs),
  ];
}

/** What came out of the learners of one law, noise and likeness. */
interface Cell {
  readonly law: Law;
  readonly r: number;
  readonly noise: number;
  readonly runs: number;
  readonly identified: Readonly<Record<(typeof LETTERS)[number], number>>;
  readonly held: Readonly<Record<(typeof LETTERS)[number], number>>;
  /** Learners whose next session lay in its interval. */
  readonly next: number;
  /** Results that say `autocorrelated`, and `unequalSpread`. */
  readonly said: number;
  readonly spread: number;
}

function study(law: Law, r: number, noise: number, runs: number, options: FitLearningCurveOptions = {}, outliers = 0): Cell {
  const random = createRandom(SEED, 1000 * NAMES.indexOf(law) + 100 * r + noise);
  const identified = { a: 0, b: 0, c: 0 };
  const held = { a: 0, b: 0, c: 0 };
  let [next, said, spread] = [0, 0, 0];
  for (let run = 0; run < runs; run++) {
    const { value, after } = learner(law, r, noise / 100, random, outliers);
    const fit = fitLearningCurve({ practice: PRACTICE, value }, { law, errors: "lognormal", band: 0, predict: [SESSIONS + 1], ...options });
    for (const letter of LETTERS) {
      const holds = holdsTruth(fit, law, letter);
      if (holds === undefined) continue;
      identified[letter]++;
      if (holds) held[letter]++;
    }
    const [prediction] = fit.predictions;
    if (prediction?.ok && prediction.interval && after >= prediction.interval[0] && after <= prediction.interval[1]) next++;
    if (fit.warnings.includes("autocorrelated")) said++;
    if (fit.warnings.includes("unequalSpread")) spread++;
  }
  return { law, r, noise, runs, identified, held, next, said, spread };
}

/** A learner's sessions and the one after; `sd` of the logarithm of a session, whatever the likeness. */
function learner(law: Law, r: number, sd: number, random: Random, outliers: number): { value: number[]; after: number } {
  let error = random.normal();
  const all = [...PRACTICE, SESSIONS + 1].map((session) => {
    const value = LAWS[law].at(session) * Math.exp(sd * error) * (random.uniform() < outliers ? 1.5 : 1);
    error = r * error + Math.sqrt(1 - r * r) * random.normal();
    return value;
  });
  return { value: all.slice(0, SESSIONS), after: all[SESSIONS]! };
}

function holdsTruth({ parameters }: LearningCurveFit, law: Law, letter: (typeof LETTERS)[number]): boolean | undefined {
  const parameter = parameters[letter]!;
  if (!parameter.ok) return undefined;
  const [low, high] = parameter.interval!;
  return LAWS[law][letter] >= low && LAWS[law][letter] <= high;
}

const where = ({ law, r, noise }: Cell): string => `${law}, session SD ${noise} %${r > 0 ? `, autocorrelation ${r}` : ""}`;

/** 93 to 97 %, or in the smaller run the 99 % band of its run count. */
function barred(name: string, share: number, runs: number, quick: boolean, source = SOURCE): Figure {
  const half = quick ? BAND * Math.sqrt((0.95 * 0.05) / runs) : 0.02;
  const bar = `${(95 - 100 * half).toFixed(1)} to ${Math.min(100, 95 + 100 * half).toFixed(1)} %`;
  return { name, value: 100 * share, bar, ok: Math.abs(share - 0.95) <= half + 1e-9, source };
}

const printed = (name: string, share: number, source = SOURCE): Figure => ({
  name,
  value: 100 * share,
  bar: "printed, %",
  ok: true,
  source,
});

function coverageFigure(cell: Cell, letter: (typeof LETTERS)[number], quick: boolean): Figure {
  const count = cell.identified[letter];
  return barred(`learning/curve, coverage of ${letter} where identified, ${where(cell)}`, cell.held[letter] / count, count, quick);
}

function pooledFigure(cell: Cell): Figure {
  const sum = (counts: Cell["held"]): number => counts.a + counts.b + counts.c;
  const each = LETTERS.map((letter) => `${letter} ${((100 * cell.held[letter]) / cell.identified[letter]).toFixed(1)}`).join(", ");
  return printed(
    `learning/curve, coverage of parameters where identified, ${where(cell)}`,
    sum(cell.held) / sum(cell.identified),
    `${SOURCE}; ${each}`,
  );
}

function nextFigure(cell: Cell, quick: boolean): Figure {
  return barred(`learning/curve, coverage of the next session's interval, ${where(cell)}`, cell.next / cell.runs, cell.runs, quick);
}

/** The least share over the parameters and noises. */
function identifiedFigure(law: Law, r: number, cells: readonly Cell[]): Figure {
  const own = cells.filter((cell) => cell.law === law && cell.r === r);
  const shares = own.map(({ identified, runs }) => Math.min(identified.a, identified.b, identified.c) / runs);
  const each = own.map(({ noise }, i) => `${noise} %: ${(100 * shares[i]!).toFixed(1)}`).join(", ");
  return printed(
    `learning/curve, learners with all parameters identified, ${law}, autocorrelation ${r}`,
    Math.min(...shares),
    `${SOURCE}; by SD ${each}`,
  );
}

function saidFigure(law: Law, r: number, cells: readonly Cell[]): Figure {
  const own = cells.filter((cell) => cell.law === law && cell.r === r);
  const share = own.reduce((sum, { said }) => sum + said, 0) / own.reduce((sum, { runs }) => sum + runs, 0);
  const name = `learning/curve, results that say autocorrelated, ${law}, autocorrelation ${r}`;
  if (r > 0) return printed(name, share);
  // a one-sided test at 5 %, approximate
  return { name, value: 100 * share, bar: "<= 8 % (false alarms)", ok: share <= 0.08, source: SOURCE };
}

/** Errors in proportion to the level, taken for errors alike at every level. */
function mismatchFigures(law: Law, runs: number): Figure[] {
  const cell = study(law, 0, 3, runs, { errors: "normal" });
  const worst = Math.min(...LETTERS.map((letter) => cell.held[letter] / cell.identified[letter]));
  return [
    printed(`learning/curve, least coverage with normal errors assumed, ${where(cell)}`, worst),
    printed(`learning/curve, results that say unequalSpread then, ${where(cell)}`, cell.spread / runs),
  ];
}

function outlierFigures(runs: number): Figure[] {
  return [false, true].map((robust) => {
    const cell = study("exponential3", 0, 3, runs, { robust }, 0.05);
    const worst = Math.min(...LETTERS.map((letter) => cell.held[letter] / cell.identified[letter]));
    const source = `${SOURCE}; one session in twenty half as slow again`;
    return printed(`learning/curve, least coverage with outliers, ${robust ? "robust" : "plain"}, ${where(cell)}`, worst, source);
  });
}
