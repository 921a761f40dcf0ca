// Trial-to-trial learning, likeness of stops and tremor, on simulated truth.
import { createRandom } from "../../src/math/random.js";
import { analyze } from "../../src/movement/analyze.js";
import { holdTremor } from "../../src/movement/hold-tremor.js";
import { bestRate, errorAutocorrelation, type Learner, planVariance } from "../../src/movement/repetition/learner-model.js";
import { stopProfile } from "../../src/movement/stop-profile.js";
import { trialToTrialLearning } from "../../src/movement/trial-to-trial-learning.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Figure } from "./figure.js";

/** Seed of the published figures; development used 77 and 5. */
const SEED = 4106;
const LENGTHS = [50, 100, 200, 400];
const LEARNER = { planningSd: 1, executionSd: 2 };
const BEST = bestRate(LEARNER);
const RATES: readonly number[] = [0.1, 0.3, BEST, 0.6];
const SAMPLING = [125, 250, 500, 1000];
const LEARNERS = "simulated learners, q 1, r 2, of known rate";

type Verdict = "overCorrecting" | "underCorrecting" | "aboutRight" | "cannotTell";

export async function figures(quick: boolean): Promise<Figure[]> {
  const learners = quick ? 25 : 1000;
  return [
    ...LENGTHS.flatMap((n) => RATES.flatMap((rate) => learning(n, rate, learners))),
    ...heavyTails(quick ? 25 : 1000),
    ...identicalStops(quick ? 40 : 200),
    ...likenessCoverage(quick ? 10 : 200, quick ? 400 : 2000),
    ...knownTremor(quick ? 1 : 8),
    ...sessionTremor(quick ? 40 : 120),
  ];
}

function simulate(learner: Learner, n: number, stream: number, noise: (random: ReturnType<typeof createRandom>) => number): number[] {
  const random = createRandom(SEED, stream);
  let plan = random.normal(0, Math.sqrt(planVariance(learner)));
  return Array.from({ length: n }, () => {
    const error = plan + learner.executionSd * noise(random);
    plan += random.normal(0, learner.planningSd) - learner.rate * error;
    return error;
  });
}

interface Tally {
  readonly correlation: number[];
  readonly rate: number[];
  covered: number;
  rateCovered: number;
  readonly verdicts: Record<Verdict, number>;
}

function tally(learner: Learner, n: number, learners: number, noise: (random: ReturnType<typeof createRandom>) => number): Tally {
  const truth = errorAutocorrelation(learner, 1);
  const found: Tally = {
    correlation: [],
    rate: [],
    covered: 0,
    rateCovered: 0,
    verdicts: { overCorrecting: 0, underCorrecting: 0, aboutRight: 0, cannotTell: 0 },
  };
  for (let k = 0; k < learners; k++) {
    const result = trialToTrialLearning(simulate(learner, n, 1000 * n + k, noise));
    if (!result.ok || !result.autocorrelation.ok) throw new Error("a learner without an answer");
    const [low, high] = result.autocorrelation.interval!;
    found.correlation.push(result.autocorrelation.value - truth);
    if (low <= truth && truth <= high) found.covered++;
    found.verdicts[result.verdict]++;
    if (!result.rate.ok) continue;
    found.rate.push(result.rate.value - learner.rate);
    if (result.rate.interval![0] <= learner.rate && learner.rate <= result.rate.interval![1]) found.rateCovered++;
  }
  return found;
}

/** Coverage at least 95 % but for three binomial standard errors; false verdicts at most 5 %, the same. */
function learning(n: number, rate: number, learners: number): Figure[] {
  const learner = { ...LEARNER, rate };
  const found = tally(learner, n, learners, (random) => random.normal());
  const slack = 3 * Math.sqrt((0.95 * 0.05) / learners);
  const at = `${n} errors, rate ${rate === BEST ? "best, 0.390" : rate}`;
  const { verdicts } = found;
  const wrong =
    rate < BEST ? verdicts.overCorrecting : rate > BEST ? verdicts.underCorrecting : verdicts.overCorrecting + verdicts.underCorrecting;
  const figures = [
    figure(`coverage of the autocorrelation, ${at}`, found.covered / learners, `>= ${(0.95 - slack).toFixed(3)}`, (v) => v >= 0.95 - slack),
    figure(`bias of the autocorrelation, ${at}`, mean(found.correlation), "printed"),
    figure(`false verdicts, ${at}`, wrong / learners, `<= ${(0.05 + slack).toFixed(3)}`, (v) => v <= 0.05 + slack),
    figure(`verdict overCorrecting, ${at}`, verdicts.overCorrecting / learners, "printed"),
    figure(`verdict underCorrecting, ${at}`, verdicts.underCorrecting / learners, "printed"),
    figure(`verdict aboutRight, ${at}`, verdicts.aboutRight / learners, "printed"),
  ];
  if (n < 100) return figures;
  figures.push(figure(`share of learners whose rate is identified, ${at}`, found.rate.length / learners, "printed"));
  // near the best rate only chance identifies a learner's own
  if (rate !== 0.1 && rate !== 0.6) return figures;
  figures.push(
    figure(`coverage of the rate where identified, ${at}`, found.rateCovered / found.rate.length, "printed"),
    figure(`bias of the rate where identified, ${at}`, mean(found.rate), "printed"),
  );
  return figures;

  function figure(what: string, value: number, bar: string, ok: (value: number) => boolean = () => true): Figure {
    return { name: `corrections/trial-to-trial ${what}`, value, bar, ok: ok(value), source: LEARNERS };
  }
}

/** Execution noise by Student's t with 4 degrees of freedom: the likelihood is then not the right one. */
function heavyTails(learners: number): Figure[] {
  const t4 = (random: ReturnType<typeof createRandom>): number => {
    const squares = random.exponential(2) + random.exponential(2);
    return random.normal() / Math.sqrt(squares / 4) / Math.SQRT2;
  };
  return RATES.filter((rate) => rate >= BEST).flatMap((rate) => {
    const found = tally({ ...LEARNER, rate }, 200, learners, t4);
    const at = `200 errors of heavy tails, rate ${rate === BEST ? "best, 0.390" : rate}`;
    const share = (name: string, value: number): Figure => ({
      name: `corrections/trial-to-trial ${name}, ${at}`,
      value: value / learners,
      bar: "printed",
      ok: true,
      source: "simulated learners, execution noise by Student's t with 4 df",
    });
    return [
      share("coverage of the autocorrelation", found.covered),
      share("verdict overCorrecting", found.verdicts.overCorrecting),
      share("verdict underCorrecting", found.verdicts.underCorrecting),
    ];
  });
}

/** Movements that are all the same: what the functional SD shows then is the scatter of where their stop is found. */
function identicalStops(movements: number): Figure[] {
  return SAMPLING.flatMap((sampleRateHz) =>
    [true, false].flatMap((fine) => {
      const { recording } = simulateRecording({
        seed: SEED,
        movements,
        sampleRateHz,
        targets: { amplitude: [400, 400], widths: [40] },
        primary: { bells: ["minimumJerk"], alongBias: 0, alongSd: 0, acrossSd: 0, timeSd: 0 },
        correction: { pureShare: 1 },
        press: { delaySd: 0, earlyShare: 0, slipSd: 0 },
        ...(fine ? { tremorAmplitude: 0, recorder: { quantum: 0.01 } } : {}),
      });
      const profile = stopProfile(recording, analyze(recording));
      const at = `${sampleRateHz} Hz, ${fine ? "fine positions, no tremor" : "1 px, tremor 0.3 px"}`;
      return (["atStop", "atPress"] as const).map((where) => {
        const { functionalSd } = profile[where];
        return {
          name: `stopping/functional SD of identical movements, ${where}, ${at}`,
          value: functionalSd.ok ? functionalSd.value : -1,
          bar: "printed",
          ok: true,
          source: "400 px to 40 px, one minimum-jerk bell of one duration",
        };
      });
    }),
  );
}

/** Intervals of the likeness of 20 movements that differ in duration, against what very many of them have. */
function likenessCoverage(sets: number, many: number): Figure[] {
  const of = (movements: number, seed: number) => {
    const { recording } = simulateRecording({
      seed,
      movements,
      targets: { amplitude: [400, 400], widths: [40] },
      primary: { alongSd: 0.03 },
      correction: { pureShare: 1 },
      press: { earlyShare: 0 },
    });
    return stopProfile(recording, analyze(recording), { seed }).atStop;
  };
  const truth = of(many, SEED);
  return (["functionalSd", "meanCorrelation", "multipleCorrelation"] as const).map((name) => {
    const target = truth[name].ok ? truth[name].value : Number.NaN;
    let held = 0;
    for (let k = 1; k <= sets; k++) {
      const found = of(20, SEED + k)[name];
      if (found.ok && found.interval![0] <= target && target <= found.interval![1]) held++;
    }
    return {
      name: `stopping/coverage of ${name} of 20 movements`,
      value: held / sets,
      bar: "printed",
      ok: true,
      source: `simulated movements of 400 px to 40 px; the value of ${many} of them is ${target.toFixed(3)}`,
    };
  });
}

/** The simulation's own hand with a tremor of known frequency and size laid over it. */
function knownTremor(repeats: number): Figure[] {
  return [125, 250, 1000].flatMap((sampleRateHz) => {
    let frequency = 0;
    let size = 0;
    for (let k = 0; k < repeats; k++) {
      const random = createRandom(SEED, k);
      const hz = random.uniform(7, 11);
      const { recording } = simulateRecording({
        seed: SEED + k,
        movements: 40,
        sampleRateHz,
        tremorAmplitude: 0,
        recorder: { quantum: 0, eventsOnly: false },
      });
      const { t, x, y } = recording.trace;
      const round = (v: number): number => Math.round(v * 50) / 50;
      const shaken = {
        t,
        x: x.map((v, i) => round(v + 0.3 * Math.sin(2 * Math.PI * hz * t[i]!))),
        y: y.map((v, i) => round(v + 0.3 * Math.sin(2 * Math.PI * hz * t[i]! + 1))),
      };
      const trembling = { ...recording, trace: shaken };
      const found = holdTremor(trembling, analyze(trembling));
      if (!found.rms.ok || !found.peakHz.ok) throw new Error("a tremor without an answer");
      frequency = Math.max(frequency, Math.abs(found.peakHz.value - hz));
      size = Math.max(size, Math.abs(found.rms.value / 0.3 - 1));
    }
    const source = `${repeats} simulated sessions of 40 movements with a sinusoid of 0.3 px on each axis, 7 to 11 Hz, positions to 0.02 px`;
    return [
      {
        name: `stopping/tremor, largest error of the peak at ${sampleRateHz} Hz`,
        value: frequency,
        bar: "<= 0.5 Hz",
        ok: frequency <= 0.5,
        source,
      },
      {
        name: `stopping/tremor, largest relative error of the size at ${sampleRateHz} Hz`,
        value: size,
        bar: "<= 0.15",
        ok: size <= 0.15,
        source,
      },
    ];
  });
}

/** The simulation's own tremor, whose frequency is drawn anew for every trial; and what a coarse or silent device says. */
function sessionTremor(movements: number): Figure[] {
  const of = (quantum: number, eventsOnly: boolean) => {
    const { recording } = simulateRecording({ seed: SEED, movements, recorder: { quantum, eventsOnly } });
    return holdTremor(recording, analyze(recording));
  };
  const fine = of(0.01, false);
  const size = fine.rms.ok ? Math.abs(fine.rms.value / 0.3 - 1) : Number.POSITIVE_INFINITY;
  const middle = fine.meanHz.ok ? Math.abs(fine.meanHz.value - 9.5) : Number.POSITIVE_INFINITY;
  const blind = [of(1, false), of(1, true)].filter(({ rms }) => !rms.ok && rms.why === "belowResolution").length;
  const source = "simulateRecording, 250 Hz: 0.3 px on each axis, 8 to 11 Hz by trial, mean 9.5";
  return [
    { name: "stopping/tremor of a session, relative error of the size", value: size, bar: "<= 0.15", ok: size <= 0.15, source },
    { name: "stopping/tremor of a session, error of the mean frequency", value: middle, bar: "<= 0.5 Hz", ok: middle <= 0.5, source },
    { name: "stopping/tremor at a 1 px quantum, devices that say belowResolution", value: blind, bar: "= 2 of 2", ok: blind === 2, source },
  ];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
