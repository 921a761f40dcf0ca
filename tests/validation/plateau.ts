// What `detectPlateau` says of simulated learners whose course is known: how often it is wrong, how often it can tell at all beside a test that is told
// the true scatter and autocorrelation, and whether the number of sessions that it asks for is right.
import { detectPlateau } from "../../src/learning/detect-plateau.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { createRandom } from "../../src/math/random.js";
import type { Figure } from "./figure.js";

const SESSIONS = [8, 14, 20, 30, 40] as const;
/** Session SD in percent of the level. */
const SCATTER = [1, 2, 3, 5] as const;
const AUTOCORRELATION = [0, 0.3, 0.6] as const;
const HORIZON = 14;
/** The default: a fall by 2 % in two weeks is worthwhile. */
const WORTHWHILE = -Math.log(0.98);
const PER_DAY = WORTHWHILE / HORIZON;
/** A curve that still gains the worthwhile size over the coming two weeks. */
const RATE = 0.05;
const SOURCE =
  "simulated learners, daily sessions (eight: over ten days), log-normal scatter, AR(1); seeds apart from those of development";
const SEED = 20261125;

/** Logarithm of the level on a day; `last` is the day of the last session. */
type Course = (day: number, last: number) => number;

const flat: Course = () => 0;
const gaining: Course = (day) => -PER_DAY * day;
const curved: Course = (day, last) => (WORTHWHILE / (1 - Math.exp(-RATE * HORIZON))) * Math.exp(-RATE * (day - last));
const losing: Course = (day) => PER_DAY * day;
/** Learned by a third with a half-life of three sessions, then flat. */
const learned: Course = (day) => 0.4 * Math.exp(-0.23 * day);

export async function figures(quick: boolean): Promise<readonly Figure[]> {
  const runs = quick ? 60 : 1000;
  return [...wrongOrRight(runs, quick), ...learners(runs), ...asked(quick ? 40 : 400, quick), looks(quick ? 20 : 400)];
}

interface Cell {
  readonly sessions: number;
  readonly scatter: number;
  readonly phi: number;
}

function days(sessions: number): number[] {
  return Array.from({ length: sessions }, (_, i) => (sessions === 8 ? (i * 10) / 7 : i));
}

/** Sessions of one simulated learner: the scatter is stationary from the first session on. */
function scatterOf({ sessions, scatter, phi }: Cell, seed: number): number[] {
  const random = createRandom(seed);
  let carried = random.normal();
  return Array.from({ length: sessions }, (_, i) => {
    if (i > 0) carried = phi * carried + Math.sqrt(1 - phi * phi) * random.normal();
    return (scatter / 100) * carried;
  });
}

function verdictOf(cell: Cell, scatter: readonly number[], course: Course): string {
  const day = days(cell.sessions);
  const last = day.at(-1)!;
  return detectPlateau({ day, value: day.map((at, i) => Math.exp(course(at, last) + scatter[i]!)) }).verdict;
}

function share(cell: Cell, runs: number, course: Course, verdict: string): number {
  let count = 0;
  for (let run = 0; run < runs; run++) if (verdictOf(cell, scatterOf(cell, seedOf(cell, run)), course) === verdict) count++;
  return count / runs;
}

function seedOf({ sessions, scatter, phi }: Cell, run: number): number {
  return SEED + run + 1e5 * (sessions + 100 * scatter + 1000 * phi);
}

/** Two one-sided tests at 5 % by generalised least squares with the true scatter and autocorrelation. */
function informed(cell: Cell, scatter: readonly number[]): boolean {
  const day = days(cell.sessions);
  const { phi } = cell;
  const whiten = (values: readonly number[]): number[] =>
    values.map((value, i) => (i === 0 ? Math.sqrt(1 - phi * phi) * value : value - phi * values[i - 1]!));
  const one = whiten(day.map(() => 1));
  const x = whiten(day);
  const y = whiten(scatter);
  const dot = (u: readonly number[], v: readonly number[]): number => u.reduce((sum, value, i) => sum + value * v[i]!, 0);
  const determinant = dot(one, one) * dot(x, x) - dot(one, x) ** 2;
  const slope = (dot(one, one) * dot(x, y) - dot(one, x) * dot(one, y)) / determinant;
  const error = (cell.scatter / 100) * Math.sqrt(((1 - phi * phi) * dot(one, one)) / determinant);
  return HORIZON * (Math.abs(slope) + normalQuantile(0.95) * error) < WORTHWHILE;
}

function wrongOrRight(runs: number, quick: boolean): Figure[] {
  const lines: Figure[] = [];
  const worst = { curved: 0, losing: 0, improving: 0, gap: 0 };
  const limit = quick ? 0.05 + 3.3 * Math.sqrt((0.05 * 0.95) / runs) : 0.05;
  for (const phi of AUTOCORRELATION) {
    for (const sessions of quick ? ([8, 20, 40] as const) : SESSIONS) {
      const falseAlarms: number[] = [];
      for (const scatter of quick ? ([1, 3] as const) : SCATTER) {
        const cell = { sessions, scatter, phi };
        const name = `${sessions} sessions, SD ${scatter} %, autocorrelation ${phi}`;
        falseAlarms.push(share(cell, runs, gaining, "plateau"));
        const power = share(cell, runs, flat, "plateau");
        const told =
          Array.from({ length: runs }, (_, run) => informed(cell, scatterOf(cell, seedOf(cell, run)))).filter(Boolean).length / runs;
        worst.gap = Math.max(worst.gap, told - power);
        worst.improving = Math.max(worst.improving, share(cell, quick ? 20 : 200, flat, "improving"));
        worst.curved = Math.max(worst.curved, share(cell, quick ? 20 : 200, curved, "plateau"));
        worst.losing = Math.max(worst.losing, share(cell, quick ? 20 : 200, losing, "plateau"));
        if (power > 0.005 || told > 0.005) {
          lines.push(
            printed(
              `learning/plateau told of a flat learner, ${name}`,
              100 * power,
              `%; a test told the truth: ${(100 * told).toFixed(1)} %`,
            ),
          );
        }
      }
      const most = Math.max(...falseAlarms);
      const bar = `<= ${(100 * limit).toFixed(1)} % in each scatter`;
      lines.push({
        name: `learning/plateau called while gaining 2 % in two weeks, ${sessions} sessions, autocorrelation ${phi}, worst scatter`,
        ...{ value: 100 * most, bar, ok: most <= limit, source: SOURCE },
      });
    }
  }
  return [
    ...lines,
    printed(
      "learning/plateau, most that is lost beside a test told the truth",
      100 * worst.gap,
      "points; 10 asked, any test with 5 % on both sides loses 19.6 at 20 sessions",
    ),
    printed("learning/plateau called while a curve still gains 2 % in the next two weeks, worst cell", 100 * worst.curved, "%"),
    printed("learning/improving said of a flat learner, worst cell", 100 * worst.improving, "%; 2.5 % where errors are independent"),
    printed("learning/plateau called while losing 2 % in two weeks, worst cell", 100 * worst.losing, "%; 20 % allowed by design"),
  ];
}

function learners(runs: number): Figure[] {
  const improving = (sessions: number): Figure =>
    printed(
      `learning/improving said of a learner on a curve (a third in all, half-life 3 sessions), ${sessions} sessions, SD 2 %`,
      100 * share({ sessions, scatter: 2, phi: 0 }, runs, learned, "improving"),
      "%",
    );
  const settled = [20, 30, 40, 60].map((sessions) =>
    printed(
      `learning/plateau told of that learner, ${sessions} sessions, SD 2 %`,
      100 * share({ sessions, scatter: 2, phi: 0 }, runs, learned, "plateau"),
      "%",
    ),
  );
  return [improving(8), improving(14), ...settled];
}

/** Sessions asked for beside those after which four in five flat learners are told. */
function asked(runs: number, quick: boolean): Figure[] {
  const cells = (quick ? [1] : [1, 2, 3]).flatMap((scatter) => AUTOCORRELATION.map((phi) => ({ scatter, phi })));
  return cells.map(({ scatter, phi }) => {
    const enough = sessionsToTell(scatter, phi, runs);
    const ratios = [11, 14, 20, 30, 40]
      .filter((sessions) => sessions < enough)
      .map((sessions) => medianAsked({ sessions, scatter, phi }, runs) / enough);
    const farthest = ratios.reduce((most, ratio) => (Math.abs(Math.log(ratio)) > Math.abs(Math.log(most)) ? ratio : most), 1);
    return {
      name: `learning/sessions asked for over sessions that tell (${enough}), SD ${scatter} %, autocorrelation ${phi}, farthest median`,
      ...{ value: farthest, bar: quick ? "0.6 to 1.4" : "0.7 to 1.3", source: SOURCE },
      ok: quick ? farthest > 0.6 && farthest < 1.4 : farthest >= 0.7 && farthest <= 1.3,
    };
  });
}

function sessionsToTell(scatter: number, phi: number, runs: number): number {
  let few = 11;
  let enough = 120;
  while (enough - few > 1) {
    const sessions = Math.floor((few + enough) / 2);
    if (share({ sessions, scatter, phi }, runs, flat, "plateau") >= 0.8) enough = sessions;
    else few = sessions;
  }
  return enough;
}

function medianAsked(cell: Cell, runs: number): number {
  const day = days(cell.sessions);
  const totals: number[] = [];
  for (let run = 0; run < runs; run++) {
    const value = scatterOf(cell, seedOf(cell, run)).map(Math.exp);
    const { recent, sessionsNeeded } = detectPlateau({ day, value });
    if (sessionsNeeded !== null) totals.push(recent.sessions + sessionsNeeded);
  }
  return totals.sort((a, b) => a - b)[totals.length >> 1] ?? 0;
}

/** Looked at after every session, each look has its own chance to be wrong. */
function looks(runs: number): Figure {
  let wrong = 0;
  for (let run = 0; run < runs; run++) {
    const cell = { sessions: 40, scatter: 1, phi: 0.3 };
    const scatter = scatterOf(cell, seedOf(cell, run));
    const day = days(40);
    const value = day.map((at, i) => Math.exp(gaining(at, 39) + scatter[i]!));
    const ever = day.some((_, i) => detectPlateau({ day: day.slice(0, i + 1), value: value.slice(0, i + 1) }).verdict === "plateau");
    if (ever) wrong++;
  }
  const name =
    "learning/plateau ever called while gaining 2 % in two weeks, looked at after each of 40 sessions, SD 1 %, autocorrelation 0.3";
  return printed(name, (100 * wrong) / runs, "%; look by the month");
}

function printed(name: string, value: number, note: string): Figure {
  return { name, value, bar: `printed, ${note}`, ok: true, source: SOURCE };
}
