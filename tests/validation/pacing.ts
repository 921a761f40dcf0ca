// Pace functions against simulated people whose law is known: how far the recommended pace is off, whether its interval holds, what another law than the fitted one does,
// how advice from block to block behaves, and hits against time within one instruction where they run against the paces.
import { createRandom } from "../../src/math/random.js";
import { advisePace, type PaceBlock } from "../../src/pacing/advise-pace.js";
import { conditionalAccuracy } from "../../src/pacing/conditional-accuracy.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import { recommendPace } from "../../src/pacing/recommend-pace.js";
import { LINEAR, LOGARITHMIC, type Person, pacedTrials, powerOf, SHORT, trueShare, trueTime, WIDTH } from "../pacing/paced-person.js";
import type { Figure, Outcome } from "./figure.js";

/** Development used 5 and 11. */
const SEED = 20270411;
const SOURCE = "simulated presses of a known law, 400 px to a circle of 40 px, three paces, 20 trials each";
/** Three paces, the outer ones 25 % from the middle one, which is within 6 % of the pace for 85 %; faster ones about that for 70 %, slower ones about that for 95 %. */
const PACES = [0.4125, 0.55, 0.6875] as const;
const FASTER = [0.33, 0.44, 0.55] as const;
const SLOWER = [0.6, 0.8, 1] as const;
const EACH = 20;
/** A pace within this share of the true one serves. */
const NEAR = 0.15;

export async function figures(quick: boolean, seed = SEED): Promise<readonly Outcome[]> {
  const runs = quick ? 30 : 1000;
  const inside = [
    study("linear law, 70 % wanted", LINEAR, 0.7, FASTER, "aicc", runs, seed),
    study("linear law, 85 % wanted", LINEAR, 0.85, PACES, "aicc", runs, seed + 1),
    study("linear law, 95 % wanted", LINEAR, 0.95, SLOWER, "aicc", runs, seed + 2),
    study("linear law, 70 % wanted, near the fastest pace", LINEAR, 0.7, PACES, "aicc", runs, seed + 11),
  ];
  // where the answer lies beyond the paces tried: printed, not judged
  const outside = [study("linear law, 95 % wanted, 13 % beyond the slowest pace", LINEAR, 0.95, PACES, "aicc", runs, seed + 3)];
  const wrong = [
    study("power law T^-0.8 fitted as linear", powerOf(0.8), 0.85, PACES, "linear", runs, seed + 4),
    study("power law T^-1.2 fitted as linear", powerOf(1.2), 0.85, PACES, "linear", runs, seed + 5),
    study("linear law fitted as power", LINEAR, 0.85, PACES, "power", runs, seed + 6),
    study("logarithmic law", LOGARITHMIC, 0.85, PACES, "aicc", runs, seed + 7),
    study("linear law with a bias that grows with speed", SHORT, 0.85, PACES, "aicc", runs, seed + 8),
  ];
  return [
    ...inside.flatMap((found) => [...errorFigures(found, true, quick), ...coverageFigures(found)]),
    ...outside.flatMap((found) => [...errorFigures(found, false, quick), ...coverageFigures(found)]),
    ...wrong.flatMap((found) => [...wrongLawFigures(found), ...coverageFigures(found)]),
    ...adviceFigures(quick ? 20 : 600, seed + 9),
    ...conditionalFigures(quick ? 8 : 400, seed + 10),
  ];
}

interface Found {
  readonly name: string;
  readonly runs: number;
  /** Recommended over true pace, less 1; Infinity where none was given. */
  readonly errors: Float64Array;
  readonly held: number;
  readonly open: number;
  /** `clear` verdicts, and those among them that are off by more than 15 %. */
  readonly clear: number;
  readonly clearAndWrong: number;
  readonly near: number;
}

function study(
  name: string,
  person: Person,
  wanted: number,
  paces: readonly number[],
  law: "aicc" | "linear" | "power",
  runs: number,
  seed: number,
): Found {
  const truth = trueTime(person, wanted);
  const errors = new Float64Array(runs);
  let [held, open, clear, clearAndWrong, near] = [0, 0, 0, 0, 0];
  for (let run = 0; run < runs; run++) {
    const trials = pacedTrials(createRandom(seed, run), person, paces, EACH);
    const { movementTime, bounds, verdict } = recommendPace(trials, { wanted, law });
    const error = movementTime.ok ? movementTime.value / truth - 1 : Number.POSITIVE_INFINITY;
    errors[run] = error;
    // an open end rules nothing out on its side
    if ((bounds.low ?? 0) <= truth && truth <= (bounds.high ?? Number.POSITIVE_INFINITY)) held++;
    if (bounds.low === null || bounds.high === null) open++;
    const isNear = Math.abs(error) <= NEAR;
    if (isNear) near++;
    if (verdict === "clear") clear++;
    if (verdict === "clear" && !isNear) clearAndWrong++;
  }
  return { name, runs, errors, held, open, clear, clearAndWrong, near };
}

const at = (values: Float64Array, p: number): number => values.slice().sort()[Math.floor(p * (values.length - 1))]!;

const printed = (name: string, value: number): Figure => ({ name: `pacing/${name}`, value, bar: "printed", ok: true, source: SOURCE });

/** What chance adds to a median of `runs` errors with this spread of their middle half: 2.6 standard errors of a median. */
const slack = (errors: Float64Array): number => (2.576 * 1.2533 * (at(errors, 0.75) - at(errors, 0.25))) / 1.349 / Math.sqrt(errors.length);

function errorFigures({ name, errors }: Found, judged: boolean, quick: boolean): Figure[] {
  const sizes = errors.map(Math.abs);
  const [signed, size] = [100 * at(errors, 0.5), 100 * at(sizes, 0.5)];
  const what = (which: string): string => `recommended pace, ${which}, ${name}, %`;
  if (!judged) return [printed(what("median signed error"), signed), printed(what("median error"), size)];
  // a small run leaves chance in its medians; the full run is held to the bars as they are
  const [most, largest] = [2 + (quick ? 100 * slack(errors) : 0), 8 + (quick ? 100 * slack(sizes) : 0)];
  return [
    {
      name: `pacing/${what("median signed error")}`,
      value: signed,
      bar: `-${most.toFixed(1)} to ${most.toFixed(1)} %`,
      ok: Math.abs(signed) < most,
      source: SOURCE,
    },
    { name: `pacing/${what("median error")}`, value: size, bar: `< ${largest.toFixed(1)} %`, ok: size < largest, source: SOURCE },
    printed(what("error that nine in ten stay below"), 100 * Math.min(99, at(sizes, 0.9))),
  ];
}

function coverageFigures({ name, runs, held, open, clear }: Found): Figure[] {
  const half = Math.max(0.02, 2.576 * Math.sqrt((0.95 * 0.05) / runs));
  const share = held / runs;
  return [
    {
      name: `pacing/recommended pace, interval named 95 % holds the true one, ${name}, %`,
      value: 100 * share,
      bar: `>= ${(100 * (0.95 - half)).toFixed(1)} %`,
      ok: share >= 0.95 - half,
      source: SOURCE,
    },
    printed(`recommended pace, interval with an open end, ${name}, %`, (100 * open) / runs),
    printed(`recommended pace, verdict clear, ${name}, %`, (100 * clear) / runs),
  ];
}

function wrongLawFigures({ name, runs, errors, clear, clearAndWrong, near }: Found): Figure[] {
  const wrong = clearAndWrong / runs;
  const most = 0.05 + 2.576 * Math.sqrt((0.05 * 0.95) / runs);
  return [
    printed(`recommended pace, median signed error, ${name}, %`, 100 * at(errors, 0.5)),
    printed(`recommended pace, within 15 %, ${name}, %`, (100 * near) / runs),
    printed(`recommended pace, cannot tell or none, ${name}, %`, (100 * (runs - clear)) / runs),
    {
      name: `pacing/recommended pace, neither within 15 % nor cannot tell, ${name}, %`,
      value: 100 * wrong,
      bar: `<= 5 % (chance among ${runs} runs: ${(100 * most).toFixed(1)} %)`,
      ok: wrong <= most,
      source: SOURCE,
    },
  ];
}

const BLOCK = 60;
const BLOCKS = 30;

/** A block at one pace. */
function block(random: ReturnType<typeof createRandom>, person: Person, pace: number): PaceBlock {
  const { movementTime, along, across } = pacedTrials(random, person, [pace], BLOCK);
  return { movementTime, hit: along.map((x, i) => (Math.hypot(x, across[i]!) <= WIDTH / 2 ? 1 : 0)) };
}

/** Thirty blocks of 60 from a pace 25 % too fast, at the right one, and 25 % too slow: with the whole history, and with the last block alone. */
function adviceFigures(people: number, seed: number): Figure[] {
  const goal = trueTime(LINEAR, 0.85);
  return (
    [
      ["25 % too fast", 0.75],
      ["at the right pace", 1],
      ["25 % too slow", 1.25],
    ] as const
  ).flatMap(([from, factor], k) =>
    (
      [
        ["", false],
        [", last block alone", true],
      ] as const
    ).flatMap(([how, alone]) => {
      let [wrong, turns, changes, blocks] = [0, 0, 0, 0];
      const ends = new Float64Array(people);
      for (let person = 0; person < people; person++) {
        const random = createRandom(seed + k, person);
        const history: PaceBlock[] = [];
        let pace = goal * factor;
        let before: string | undefined;
        for (let b = 0; b < BLOCKS; b++) {
          history.push(block(random, LINEAR, pace));
          const { advice } = advisePace(alone ? history.at(-1)! : history, { wanted: 0.85 });
          blocks++;
          if (advice === "hold" || advice === "cannotTell") continue;
          const next = pace * (advice === "slowDown" ? 1.05 : 0.95);
          // a step away from the goal by someone who was no more than half a step on the other side of it
          if ((advice === "slowDown" && pace > goal * 1.025) || (advice === "speedUp" && pace < goal * 0.975)) wrong++;
          changes++;
          if (before !== undefined && before !== advice) turns++;
          before = advice;
          pace = next;
        }
        ends[person] = trueShare(LINEAR, pace);
      }
      const what = (which: string): string => `advice, ${which}, starting ${from}${how}`;
      const share = wrong / blocks;
      const lines = [
        printed(`${what("changes of pace in 30 blocks")}`, changes / people),
        printed(`${what("turns back in 30 blocks")}`, turns / people),
        printed(`${what("share of hits reached, tenth of the people at most")}, %`, 100 * at(ends, 0.1)),
        printed(`${what("share of hits reached, median")}, %`, 100 * at(ends, 0.5)),
        printed(`${what("share of hits reached, tenth of the people at least")}, %`, 100 * at(ends, 0.9)),
      ];
      const most = 0.1 + 2.576 * Math.sqrt(0.09 / blocks);
      const bar = `<= 10 % (chance among ${blocks} blocks: ${(100 * most).toFixed(1)} %)`;
      if (alone) return [printed(`${what("steps away from the wanted share")}, % of blocks`, 100 * share), ...lines];
      const name = `pacing/${what("steps away from the wanted share")}, % of blocks`;
      return [{ name, value: 100 * share, bar, ok: share <= most, source: SOURCE }, ...lines];
    }),
  );
}

/** Every fifth movement fails, is 30 % slower and scatters twice as widely: slower trials hit less, though slower paces hit more. */
function conditionalFigures(people: number, seed: number): Figure[] {
  let [against, along, slopes] = [0, 0, 0];
  const errors = new Float64Array(people);
  const trialErrors = new Float64Array(people);
  // what the mixture truly gives at a pace: four fifths by the law, one fifth at twice its scatter
  const mixed = (t: number): number =>
    0.8 * trueShare(LINEAR, t) + 0.2 * trueShare({ ...LINEAR, scatter: (u) => 2 * LINEAR.scatter(u) }, t);
  for (let person = 0; person < people; person++) {
    const random = createRandom(seed, person);
    const plain = pacedTrials(random, LINEAR, PACES, 150);
    const failed = plain.movementTime.map(() => (random.uniform() < 0.2 ? 1 : 0));
    const trials = {
      ...plain,
      movementTime: plain.movementTime.map((t, i) => t * (failed[i] === 1 ? 1.3 : 1)),
      along: plain.along.map((x, i) => x * (1 + failed[i]!)),
      across: plain.across.map((x, i) => x * (1 + failed[i]!)),
    };
    for (const { slope } of conditionalAccuracy(trials)) {
      if (!slope.ok) continue;
      slopes++;
      if (slope.value < 0) against++;
    }
    const fit = fitSpeedAccuracy(trials);
    const [fastest, slowest] = [fit.paces[0]!.hitShare, fit.paces.at(-1)!.hitShare];
    if (fastest.ok && slowest.ok && slowest.value > fastest.value) along++;
    // the difference in hits between the fastest and the slowest pace, as the scatter fitted over paces, and over single trials, has it
    const truth = mixed(PACES[2]) - mixed(PACES[0]);
    const rise = (speed: "pace" | "trial"): number => {
      const { curve } = fitSpeedAccuracy(trials, { speed });
      const near = (t: number): number =>
        curve.reduce((best, point) => (Math.abs(point.movementTime - t) < Math.abs(best.movementTime - t) ? point : best)).scatter ?? 0;
      return near(PACES[2]) - near(PACES[0]);
    };
    errors[person] = rise("pace") / truth - 1;
    trialErrors[person] = rise("trial") / truth - 1;
  }
  const source = "simulated presses, 450 a person at three paces; one in five fails: 30 % slower, twice the scatter";
  const line = (name: string, value: number, bar = "printed", ok = true): Figure => ({
    name: `pacing/conditional accuracy, ${name}`,
    value,
    bar,
    ok,
    source,
  });
  return [
    line("instructions within which slower trials hit less, %", (100 * against) / slopes, ">= 90 %", against >= 0.9 * slopes),
    line("people whose slowest pace hits more than their fastest, %", (100 * along) / people, ">= 95 %", along >= 0.95 * people),
    line("rise of hits from the fastest to the slowest pace, fitted over paces, median error, %", 100 * at(errors, 0.5)),
    line("the same fitted over single trials, median error, %", 100 * at(trialErrors, 0.5)),
  ];
}
