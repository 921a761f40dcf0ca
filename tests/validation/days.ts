// Sessions and the nights between them, retention and transfer: recovery on simulated learners whose truth was fixed beforehand.
import { practiceRetention } from "../../src/learning/practice-retention.js";
import { practiceTransfer } from "../../src/learning/practice-transfer.js";
import { sessionStructure } from "../../src/learning/session-structure.js";
import type { Estimate } from "../../src/math/estimate.js";
import type { SimulateLearnerOptions } from "../../src/simulate/learner/options.js";
import { simulateLearner } from "../../src/simulate/simulate-learner.js";
import type { Figure, Outcome } from "./figure.js";

/** Published figures; development used seeds from 1000 and 5000 on. */
const SEED = 70_000_000;
const SOURCE = "simulated learners, truth fixed beforehand";
/** Truth of the study, shares of the level. */
const WARM_UP = 0.08;
const FATIGUE = 0.0005;
const SESSIONS = 10;

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const runs = quick ? 120 : 2000;
  return [
    ...[40, 60].flatMap((trials, i) =>
      [0, -0.03, 0.03].flatMap((overnight, j) => recovery({ trials, overnight }, runs, 1e6 * (3 * i + j + 1))),
    ),
    ...traps(runs),
    ...[5, 10, 20].flatMap((n) => scores(n, quick ? 500 : 10_000)),
  ];
}

/** Ten sessions of the study. */
function learner(seed: number, trials: number, options: SimulateLearnerOptions): ReturnType<typeof sessionStructure> {
  const simulated = simulateLearner({
    seed: SEED + seed,
    sessions: SESSIONS,
    trialsPerSession: trials,
    curve: { law: "flat", a: 0.8 },
    sessionNoise: { sd: 0.01 },
    trialNoise: 0.08,
    warmUp: { size: WARM_UP, rate: 0.15 },
    fatigue: FATIGUE,
    ...options,
  });
  return sessionStructure(simulated.trials);
}

/** How often an interval held its truth, and how far the values lay off on average. */
interface Tally {
  given: number;
  held: number;
  off: number;
}

function count(tally: Tally, estimate: Estimate, truth: number): void {
  if (!estimate.ok) return;
  tally.given++;
  tally.off += estimate.value - truth;
  const [low, high] = estimate.interval ?? [estimate.value, estimate.value];
  if (low <= truth && truth <= high) tally.held++;
}

const newTally = (): Tally => ({ given: 0, held: 0, off: 0 });
const printed = (name: string, value: number, unit: string): Figure => ({ name, value, bar: `printed, ${unit}`, ok: true, source: SOURCE });

/** Coverage with its bar; a smaller run gets the binomial 99 % band of its number at either end. */
function coverage(name: string, { given, held }: Tally, least = 90, most = 98): Figure {
  const band = (share: number): number => (given >= 2000 ? 0 : 257.6 * Math.sqrt((share * (1 - share)) / Math.max(1, given)));
  const low = least - band(least / 100);
  const high = Math.min(100, most + band(most / 100));
  const value = (100 * held) / Math.max(1, given);
  return { name, value, bar: `${low.toFixed(1)} to ${high.toFixed(1)} %`, ok: given > 0 && value >= low && value <= high, source: SOURCE };
}

function recovery({ trials, overnight }: { trials: number; overnight: number }, runs: number, first: number): Figure[] {
  const tallies = { decrement: newTally(), length: newTally(), slope: newTally(), overnight: newTally() };
  let right = 0;
  for (let seed = 0; seed < runs; seed++) {
    const found = learner(first + seed, trials, { overnight });
    count(tallies.decrement, found.warmUp.decrement.share, WARM_UP);
    count(tallies.length, found.warmUp.length, Math.log(20) / 0.15);
    count(tallies.slope, found.slope.share, FATIGUE);
    count(tallies.overnight, found.overnight.corrected.share, overnight);
    if (directionOf(found.overnight.corrected.share) === Math.sign(overnight)) right++;
  }
  const of = (what: string): string => `learning/sessionStructure, ${what}, ${trials} trials, overnight ${100 * overnight} %`;
  const bias = ({ off, given }: Tally): number => off / Math.max(1, given);
  const { decrement, length, slope } = tallies;
  return [
    coverage(of("coverage of the warm-up decrement"), decrement),
    printed(of("bias of the warm-up decrement of 8 %"), 100 * bias(decrement), "% of the level"),
    coverage(of("coverage of the slope"), slope),
    printed(of("bias of the slope of 0.05 % per trial"), 100 * bias(slope), "% of the level per trial"),
    coverage(of("coverage of the overnight change"), tallies.overnight),
    printed(of("bias of the overnight change"), 100 * bias(tallies.overnight), "% of the level"),
    printed(of("warm-up length given"), (100 * length.given) / runs, "% of runs"),
    printed(of("coverage of the warm-up length where given"), (100 * length.held) / Math.max(1, length.given), "%"),
    ...(overnight === 0 ? [] : [printed(of("direction of the overnight change shown"), (100 * right) / runs, "% of runs")]),
  ];
}

/** -1 or 1 when an interval lies on one side of 0. */
function directionOf(estimate: Estimate): number {
  if (!estimate.ok || estimate.interval === undefined) return 0;
  return estimate.interval[1] < 0 ? -1 : estimate.interval[0] > 0 ? 1 : 0;
}

/** Learners whom no night changes: what the raw difference of blocks says, and what is left of it once corrected. */
function traps(runs: number): Figure[] {
  const cases: readonly (readonly [string, SimulateLearnerOptions])[] = [
    ["warm-up and fatigue", {}],
    ["fatigue alone", { warmUp: { size: 0 } }],
    ["fatigue four times as strong, alone", { warmUp: { size: 0 }, fatigue: 4 * FATIGUE }],
    ["neither", { warmUp: { size: 0 }, fatigue: 0 }],
    ["session noise with autocorrelation 0.4", { sessionNoise: { sd: 0.01, autocorrelation: 0.4 } }],
  ];
  return cases.flatMap(([what, options], at) => {
    const tally = { rawGain: 0, rawLoss: 0, gain: 0, loss: 0, noWarmUp: 0, warned: 0 };
    for (let seed = 0; seed < runs; seed++) {
      const { overnight, warnings } = learner(100_000 * (at + 1) + seed, 60, options);
      const raw = directionOf(overnight.raw.share);
      const corrected = directionOf(overnight.corrected.share);
      if (raw < 0) tally.rawGain++;
      if (raw > 0) tally.rawLoss++;
      if (corrected < 0) tally.gain++;
      if (corrected > 0) tally.loss++;
      if (warnings.includes("noWarmUp")) tally.noWarmUp++;
      if (warnings.includes("autocorrelated")) tally.warned++;
    }
    const of = (name: string): string => `learning/sessionStructure, ${name}, ${what}`;
    const share = (times: number): number => (100 * times) / runs;
    const independent = options.sessionNoise === undefined;
    const most = 5 + (runs >= 2000 ? 0 : 257.6 * Math.sqrt((0.05 * 0.95) / runs));
    const bounded = (name: string, times: number): Figure =>
      independent
        ? { name: of(name), value: share(times), bar: `<= ${most.toFixed(1)} %`, ok: share(times) <= most, source: SOURCE }
        : printed(of(name), share(times), "% of runs");
    return [
      printed(of("false overnight gain by raw blocks"), share(tally.rawGain), "% of runs"),
      printed(of("false overnight loss by raw blocks"), share(tally.rawLoss), "% of runs"),
      bounded("false overnight gain as corrected", tally.gain),
      bounded("false overnight loss as corrected", tally.loss),
      printed(of("no warm-up found"), share(tally.noWarmUp), "% of runs"),
      ...(independent ? [] : [printed(of("autocorrelation warned of"), share(tally.warned), "% of runs")]),
    ];
  });
}

/** Session values about a level, with 5 % from session to session. */
function valuesAt(level: number, n: number, seed: number): readonly number[] {
  const flat = { law: "flat", a: level } as const;
  return simulateLearner({ seed: SEED + seed, sessions: n, trialsPerSession: 1, trialNoise: 0, sessionNoise: { sd: 0.05 }, curve: flat })
    .series.value;
}

function scores(n: number, runs: number): Figure[] {
  // improvements .3 in practice with .08 lost; .1 by transfer, .3 by direct training, .03 by testing
  const truths = { absolute: 0.78, difference: 0.08, percentage: 80 / 3, transferDifference: 0.07, transfer: 700 / 27, carryOver: 1 / 3 };
  const tallies = Object.fromEntries(Object.keys(truths).map((name) => [name, newTally()])) as Record<keyof typeof truths, Tally>;
  for (let run = 0; run < runs; run++) {
    let seed = 10_000_000 * n + 20 * run;
    const at = (level: number): readonly number[] => valuesAt(level, n, seed++);
    const retention = practiceRetention({ start: at(1), end: at(0.7), retention: at(0.78) });
    count(tallies.absolute, retention.absolute, truths.absolute);
    count(tallies.difference, retention.difference, truths.difference);
    count(tallies.percentage, retention.percentage, truths.percentage);
    const trained = { before: at(1), after: at(0.7) };
    const transfer = practiceTransfer({
      before: at(1),
      after: at(0.9),
      trained,
      control: { before: at(1), after: at(0.97) },
      drill: trained,
    });
    count(tallies.transferDifference, transfer.difference, truths.transferDifference);
    count(tallies.transfer, transfer.percentage, truths.transfer);
    count(tallies.carryOver, transfer.carryOver, truths.carryOver);
  }
  const names = {
    absolute: "practiceRetention, absolute",
    difference: "practiceRetention, difference",
    percentage: "practiceRetention, percentage of the gain",
    transferDifference: "practiceTransfer, difference",
    transfer: "practiceTransfer, percentage",
    carryOver: "practiceTransfer, carry-over",
  };
  return (Object.keys(names) as (keyof typeof names)[]).flatMap((key) => [
    coverage(`learning/${names[key]}, coverage at n = ${n}`, tallies[key], ...((n >= 10 ? [93, 97] : [90, 98]) as [number, number])),
    ...(tallies[key].given < runs
      ? [printed(`learning/${names[key]}, given at n = ${n}`, (100 * tallies[key].given) / runs, "% of runs")]
      : []),
  ]);
}
