// Does following the plan bring at least as much as equal parts? Simulated trainees who plan anew every week from what a diagnosis says, under two laws of learning, with a
// weakness planted in each part or in none. The trainees' constants are the defaults of simulateTrainee, fixed before any run. Then how often the stop rules stop
// somebody who is steady, and somebody who is not.
import type { Estimate } from "../../src/math/estimate.js";
import { meanEstimate } from "../../src/math/mean-estimate.js";
import { createRandom, type Random } from "../../src/math/random.js";
import type { PractisedBlock } from "../../src/practice/blocks/types.js";
import { judgeBlocks } from "../../src/practice/judge-blocks.js";
import type { PlanDiagnosis } from "../../src/practice/plan/first-item.js";
import { PARTS } from "../../src/practice/plan/parts.js";
import { planPractice } from "../../src/practice/plan-practice.js";
import type { DiagnosisVerdict, Part, PlanItem } from "../../src/practice/types.js";
import { type SimulatedTrainee, simulateTrainee } from "../../src/simulate/simulate-trainee.js";
import type { SimulateTraineeOptions, TraineePartModel } from "../../src/simulate/trainee/options.js";
import type { Figure, Outcome } from "./figure.js";

/** Published figures; development used seeds from 1000 on. */
const SEED = 20_261_210;
const SOURCE = "simulated trainees, constants fixed before any run";
const WEEKS = 6;
const DAYS = 5;
const EARLY = 2;
/** What a practised person of the population reaches: half of what there is to learn. */
const REFERENCE_SHARE = 0.5;
/** A part is named from this share of the excesses above 0 on. */
const NAMED_SHARE = 0.4;
const WRONG = 0.1;
const SILENT = 0.15;
/** Not slower: within the smallest change of interest. */
const MARGIN = 0.02;
/** From so many people on all of the interval has to lie beyond the bar. */
const ENOUGH_PEOPLE = 400;

type Weakness = Part | "none";
type Teller = "true" | "noisy" | "wrong";

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const people = quick ? 40 : 400;
  const lines: Outcome[] = [];
  for (const law of ["exponential", "power"] as const) {
    for (const weakness of [...PARTS, "none"] as const) {
      for (const teller of ["true", "noisy"] as const) lines.push(...benefit({ law, weakness, teller, minutes: 60 }, people));
    }
    lines.push(...benefit({ law, weakness: "primary", teller: "true", minutes: 30 }, people));
    lines.push(...benefit({ law, weakness: "primary", teller: "wrong", minutes: 60 }, people));
    lines.push(...benefit({ law, weakness: "primary", teller: "true", minutes: 60, fixed: true }, people));
  }
  return [...lines, ...stopRuleFigures(quick ? 400 : 10_000)];
}

interface Study {
  readonly law: "exponential" | "power";
  readonly weakness: Weakness;
  readonly teller: Teller;
  readonly minutes: number;
  /** The weakness is a higher asymptote, which no practice takes away. */
  readonly fixed?: boolean;
}

/** Ratio of what was gained, total time per acquisition, under the plan over equal parts. */
function benefit(study: Study, people: number): Figure[] {
  const early: number[] = [];
  const late: number[] = [];
  for (let person = 0; person < people; person++) {
    const random = createRandom(SEED, person);
    const trainee = drawTrainee(random, study);
    const planned = follow(trainee, study, random);
    const equal = follow(trainee, { ...study, teller: undefined }, random);
    early.push(planned[EARLY]! / equal[EARLY]!);
    late.push(planned[WEEKS]! / equal[WEEKS]!);
  }
  return [
    judged(study, EARLY, meanEstimate(early, "1", 0.99)),
    judged(study, WEEKS, meanEstimate(late, "1", 0.99)),
    ...(study.teller === "noisy" ? [printed(`${label(study, WEEKS)}, least over people`, Math.min(...late))] : []),
  ];
}

function label({ law, weakness, teller, minutes, fixed }: Study, weeks: number): string {
  const weak = weakness === "none" ? "no weakness" : `weakness in ${weakness}${fixed ? " that practice cannot mend" : ""}`;
  return `practice/plan, gain over that of equal parts after ${weeks} weeks, ${weak}, diagnosis ${teller}, ${law} law, ${minutes} min`;
}

function judged(study: Study, weeks: number, estimate: Estimate): Figure {
  if (!estimate.ok) throw new Error(`${label(study, weeks)}: ${estimate.why}`);
  const [low, high] = estimate.interval!;
  const interval = `99 % interval ${low.toFixed(3)} to ${high.toFixed(3)}`;
  if (study.teller === "wrong" || study.fixed) return { ...printed(label(study, weeks), estimate.value), bar: `printed, ${interval}` };
  const least = study.weakness === "none" ? 1 - MARGIN : 1;
  // few people leave the interval wide: then it need not lie beyond the bar, but must reach it
  const end = estimate.n < ENOUGH_PEOPLE ? "upper" : "lower";
  const ok = (end === "upper" ? high : low) >= least;
  return { name: label(study, weeks), value: estimate.value, bar: `${end} end >= ${least}, ${interval}`, ok, source: SOURCE };
}

function printed(name: string, value: number): Figure {
  return { name, value, bar: "printed", ok: true, source: SOURCE };
}

/** A person about the usual constants: asymptote SD 10 %, what is to be learned 20 %, rate 30 %; the weak part has twice as much to learn. */
function drawTrainee(random: Random, { law, weakness, fixed }: Study): SimulateTraineeOptions {
  const usual = simulateTrainee({ days: [] }).truth.parts;
  const parts: Partial<Record<Part, TraineePartModel>> = {};
  for (const part of PARTS) {
    const excess = (usual[part].start - usual[part].asymptote) * Math.exp(random.normal(0, 0.2));
    const weak = part === weakness ? excess : 0;
    const asymptote = usual[part].asymptote * Math.exp(random.normal(0, 0.1)) + (fixed ? weak : 0);
    parts[part] = { asymptote, start: asymptote + excess + (fixed ? 0 : weak), rate: usual[part].rate * Math.exp(random.normal(0, 0.3)) };
  }
  return { law, parts };
}

/** Seconds gained by the end of each week (entry 0: none yet), planning anew every Monday; `teller` undefined plans without a diagnosis. */
function follow(trainee: SimulateTraineeOptions, study: Omit<Study, "teller"> & { teller: Teller | undefined }, random: Random): number[] {
  let { state, truth }: Pick<SimulatedTrainee, "state" | "truth"> = simulateTrainee({ ...trainee, days: [] });
  const total = (): number => PARTS.reduce((sum, part) => sum + truth.parts[part].asymptote + state.excess[part], 0);
  const start = total();
  const gained = [0];
  for (let week = 0; week < WEEKS; week++) {
    const sessions = week * DAYS;
    const diagnosis = study.teller && diagnosisOf(tell(truth.parts, state.excess, study, random), sessions);
    const { items } = planPractice({ minutes: study.minutes, sessions, days: DAYS, hitShare: 0.8, ...(diagnosis ? { diagnosis } : {}) });
    const days: (readonly PlanItem[])[] = [...new Array<readonly PlanItem[]>(DAYS).fill(items), [], []];
    ({ state, truth } = simulateTrainee({ ...trainee, from: state, days }));
    gained.push(start - total());
  }
  return gained;
}

function diagnosisOf(verdict: DiagnosisVerdict, sessions: number): PlanDiagnosis {
  return { verdict, parts: [], rulings: [], sessions, hitShare: { ok: true, value: 0.8, unit: "1", n: 400 } };
}

/** What a diagnosis says of the true levels; a noisy one names another part, or none, now and then. */
function tell(
  parts: Readonly<Record<Part, TraineePartModel>>,
  excess: Readonly<Record<Part, number>>,
  { teller, weakness }: { readonly teller: Teller | undefined; readonly weakness: Weakness },
  random: Random,
): DiagnosisVerdict {
  const wrong = (than: Part | undefined): DiagnosisVerdict => ({
    kind: "weakestPart",
    part: random.pick(PARTS.filter((part) => part !== than)),
  });
  if (teller === "wrong") return { kind: "weakestPart", part: PARTS[(PARTS.indexOf(weakness as Part) + 2) % PARTS.length]! };
  const verdict = trueVerdict(parts, excess);
  if (teller === "true") return verdict;
  const draw = random.uniform();
  if (draw < WRONG) return wrong(verdict.kind === "weakestPart" ? verdict.part : undefined);
  return draw < WRONG + SILENT ? { kind: "noWeakestPart" } : verdict;
}

function trueVerdict(parts: Readonly<Record<Part, TraineePartModel>>, excess: Readonly<Record<Part, number>>): DiagnosisVerdict {
  const usual = simulateTrainee({ days: [] }).truth.parts;
  const beyond = PARTS.map((part) => {
    const reference = usual[part].asymptote + REFERENCE_SHARE * (usual[part].start - usual[part].asymptote);
    return Math.max(0, parts[part].asymptote + excess[part] - reference);
  });
  const largest = Math.max(...beyond);
  const sum = beyond.reduce((all, one) => all + one, 0);
  return largest > 0 && largest >= NAMED_SHARE * sum
    ? { kind: "weakestPart", part: PARTS[beyond.indexOf(largest)]! }
    : { kind: "noWeakestPart" };
}

/** Ten blocks of 30: hits at a share, latency 0.26 s with SD 0.067 a trial, error of a block with SD 1 about 10; from block 6 on something changes. */
interface Course {
  readonly hits: (block: number) => number;
  readonly latency: (block: number) => number;
  readonly error: (block: number) => number;
}

const BLOCKS = 10;
const TRIALS = 30;
/** Smallest detectable change of blocks with an SD of 1: 1.96 times the root of 2. */
const DETECTABLE = 2.772;

function stopRuleFigures(runs: number): Figure[] {
  const steady: Course = { hits: () => 0.95, latency: () => 0.26, error: () => 10 };
  const from6 = (before: number, after: number) => (block: number) => (block < 6 ? before : after);
  const share = (what: string, course: Course, stream: number): Figure =>
    printed(`practice/judge blocks, stopped within ten blocks, ${what}, %`, (100 * stopped(course, runs, stream)) / runs);
  return [
    { ...share("steady at 95 % hits", steady, 1), ...bar((100 * stopped(steady, runs, 1)) / runs, 10) },
    share("steady at 90 % hits", { ...steady, hits: () => 0.9 }, 2),
    share("95 % hits, 75 % from block 6 on", { ...steady, hits: from6(0.95, 0.75) }, 3),
    share("primary error up by four block SDs from block 6 on", { ...steady, error: from6(10, 14) }, 4),
    share("latency growing by 20 % a block from block 6 on", { ...steady, latency: (block) => 0.26 * 1.2 ** Math.max(0, block - 5) }, 5),
  ];
}

/** A day's practice of somebody steady must not be stopped often. */
function bar(value: number, most: number): Pick<Figure, "bar" | "ok"> {
  return { bar: `<= ${most} %`, ok: value <= most };
}

function stopped(course: Course, runs: number, stream: number): number {
  const random = createRandom(SEED, 5000 + stream);
  let count = 0;
  for (let run = 0; run < runs; run++) {
    const blocks = Array.from({ length: BLOCKS }, (_, i): PractisedBlock => {
      const hits = Array.from({ length: TRIALS }, () => (random.uniform() < course.hits(i + 1) ? 1 : 0)).reduce<number>(
        (sum, hit) => sum + hit,
        0,
      );
      const latency = course.latency(i + 1) + random.normal(0, 0.067 / Math.sqrt(TRIALS));
      return { trials: TRIALS, hits, latency, primaryError: Math.max(0, course.error(i + 1) + random.normal()) };
    });
    if (blocks.some((_, i) => judgeBlocks(blocks.slice(0, i + 1), { detectable: DETECTABLE }).stop)) count++;
  }
  return count;
}
