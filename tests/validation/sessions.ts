// Two periods of simulated people across a change of display: is the display taken for skill? Truth and sizes were fixed beforehand.
import { createRandom } from "../../src/math/random.js";
import { compareSessions } from "../../src/report/compare-sessions.js";
import { summarizeSession } from "../../src/report/summarize-session.js";
import type { SessionSummary, SessionsComparison } from "../../src/report/types.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import type { Equipment } from "../../src/trace/types.js";
import type { Figure, Outcome } from "./figure.js";

/** Published figures; development used seeds below 1e6. */
const SEED = 41_000_000;
const SOURCE = "simulated people and displays, truth fixed beforehand";
const SESSIONS = 6;
const MOVEMENTS = 40;
/** Spread of a person's latency from session to session, of its logarithm. */
const SESSION_SD = 0.04;
/** The old display: 60 Hz, 55 ms from frame to light; the new one: 240 Hz, 18 ms. */
const OLD = { refreshHz: 60, latency: 0.055 };
const NEW = { refreshHz: 240, latency: 0.018 };
/** A real gain, seconds of latency: what a month may bring. */
const GAIN = 0.04;

type Display = typeof OLD;

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const runs = quick ? 16 : 300;
  const same = repeat(runs, (seed) => periods(seed, 0, recorded(OLD, "old"), recorded(NEW, "new")));
  const gained = repeat(runs, (seed) => periods(seed + 5e5, GAIN, recorded(OLD, "old"), recorded(NEW, "new")));
  const unnamed = repeat(Math.min(runs, 60), (seed) => periods(seed, 0, { id: "old" }, { id: "new" }));
  const alike = repeat(runs, (seed) => periods(seed + 9e5, 0, recorded(NEW, "new"), recorded(NEW, "new"), NEW));
  return [
    printed(
      "equipment/guard, display alone: latency as recorded called better",
      share(same, (one) => asRecorded(one) === "better"),
    ),
    // each measure may err at its own level; that one of several does is no failure of the guard
    atMost("equipment/guard, display alone: verdicts on skill, of all measures that have one", verdicts(same), 5, runs),
    printed("equipment/guard, display alone: any of the measures called better or worse", share(same, anySkill)),
    printed(
      "equipment/guard, display alone: latency's skill called better",
      share(same, (one) => skillOf(one, "latency") === "better"),
    ),
    printed(
      "equipment/guard, display and 40 ms of real gain: latency's skill called better",
      share(gained, (one) => skillOf(one, "latency") === "better"),
    ),
    atMost("equipment/guard, displays unknown: any verdict on skill", share(unnamed, anySkill), 0, Number.POSITIVE_INFINITY),
    printed(
      "equipment/guard, same display, no gain: latency called better or worse",
      share(alike, (one) => judged(skillOf(one, "latency"))),
    ),
  ];
}

/** What an end-to-end measurement of the display would find. */
function recorded(display: Display, id: string): Equipment {
  return { id, refreshHz: display.refreshHz, latency: display.latency + 0.5 / display.refreshHz };
}

function periods(seed: number, gain: number, before: Equipment, after: Equipment, first: Display = OLD): SessionsComparison {
  const random = createRandom(SEED + seed, 0);
  const usual = 0.2 * Math.exp(random.normal(0, 0.1));
  const period = (from: number, mu: number, display: Display, equipment: Equipment): SessionSummary[] =>
    Array.from({ length: SESSIONS }, (_, k) => {
      const { recording } = simulateRecording({
        seed: SEED + 100 * seed + from + k,
        movements: MOVEMENTS,
        latency: { mu: mu * Math.exp(random.normal(0, SESSION_SD)) },
        display,
      });
      const startedAt = new Date(Date.UTC(2026, 2, 1 + from + 2 * k, 18)).toISOString();
      return summarizeSession({ person: "simulated", startedAt, equipment, recordings: [recording] });
    });
  return compareSessions(period(0, usual, first, before), period(20, usual - gain, NEW, after));
}

function repeat(runs: number, run: (seed: number) => SessionsComparison): SessionsComparison[] {
  return Array.from({ length: runs }, (_, i) => run(i));
}

function asRecorded({ measures }: SessionsComparison): string | undefined {
  return measures.find(({ measure }) => measure === "latency")!.comparison?.verdict;
}

function skillOf({ measures }: SessionsComparison, name: string): string {
  return measures.find(({ measure }) => measure === name)!.skill;
}

function judged(verdict: string): boolean {
  return verdict === "better" || verdict === "worse";
}

/** Share of better or worse among the measures whose equipment effect is known. */
function verdicts(all: readonly SessionsComparison[]): number {
  const known = all.flatMap(({ measures }) => measures.filter(({ equipmentEffect }) => equipmentEffect?.ok));
  return (100 * known.filter(({ skill }) => judged(skill)).length) / known.length;
}

function anySkill({ measures }: SessionsComparison): boolean {
  return measures.some(({ skill }) => judged(skill));
}

function share(all: readonly SessionsComparison[], holds: (one: SessionsComparison) => boolean): number {
  return (100 * all.filter(holds).length) / all.length;
}

function printed(name: string, value: number): Figure {
  return { name, value, bar: "printed, %", ok: true, source: SOURCE };
}

/** A share with its bar; a small run gets the binomial 99 % band. */
function atMost(name: string, value: number, most: number, runs: number): Figure {
  const p = most / 100;
  const bar = most + (runs < 300 ? 257.6 * Math.sqrt((p * (1 - p)) / runs) : 0);
  return { name, value, bar: `<= ${bar.toFixed(1)} %`, ok: value <= bar, source: SOURCE };
}
