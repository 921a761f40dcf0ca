import { requireNumber, requireObject, requireSeed, show } from "../math/require.js";
import { VERSION } from "../math/version.js";
import { summarize } from "../movement/summarize.js";
import { diagnose } from "../practice/diagnose.js";
import { planPractice } from "../practice/plan-practice.js";
import { compareSessions } from "./compare-sessions.js";
import { inOrder, requireSummaries } from "./comparison/require-summaries.js";
import { answerChange, SESSIONS_TO_COMPARE } from "./review/answer-change.js";
import { answerCost } from "./review/answer-cost.js";
import { answerEquipment } from "./review/answer-equipment.js";
import { answerNext, answerStop } from "./review/answer-next.js";
import { answerUnknown } from "./review/answer-unknown.js";
import { describeSpell, equipmentSpells } from "./review/equipment-spells.js";
import { measureCourses } from "./review/measure-courses.js";
import { reviewPace } from "./review/review-pace.js";
import type { PracticeReview, SessionSummary, SessionsComparison } from "./types.js";

const WHERE = "reviewPractice";
/** Sessions that stand for "then" and for "now". */
const SESSIONS_OF_A_PERIOD = 5;

/** Options of `reviewPractice`. */
export interface ReviewPracticeOptions {
  /** Minutes a day there are for practice, 10 to 240, default 60. */
  readonly minutes?: number;
  /** Share of first presses that should hit, 0.5 to 0.99, default 0.95: slow enough to stay clean. Lower allows a quicker pace. */
  readonly wanted?: number;
  /** Sessions of the people to be held against, one list per person. Default: the person's own best sessions. */
  readonly group?: readonly (readonly SessionSummary[])[];
  /** Confidence level of the intervals, 0.6 to 0.9999, default 0.95. */
  readonly level?: number;
  /** Start of the random numbers, a 32-bit whole number, default 1. */
  readonly seed?: number;
}

/**
 * All that one person's recordings say, from where the time goes to what to practise next: what costs most, whether practice changes anything, whether the
 * equipment is the limit, the pace, the plan, when to stop, and what cannot be said.
 *
 * Sessions are taken in order of time. "Now" is the last stretch on one set of equipment: courses, diagnosis and plan rest on it alone. The first and the last
 * five sessions (fewer: halves) of that stretch are compared; where it has fewer than four, those of the whole record, equipment allowed for. Cost O(rows), and the
 * resamples of the diagnosis.
 *
 * @param sessions - results of `summarizeSession` of one person in one space
 * @param options - see `ReviewPracticeOptions`
 * @returns figures and answers in words; plain data. Whatever the sessions do not tell is named in `answers.cannotSay`
 * @throws TypeError or RangeError if there is no session, entries are no summaries, of two people or spaces, or an option is out of range
 * @see the pages of `diagnose`, `compareSessions`, `detectPlateau`, `recommendPace`, `advisePace` and `planPractice`, from which it is put together
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 30 });
 * const session = { person: "Ada", startedAt: "2026-03-02T18:00:00Z", equipment: { id: "desk" }, recordings: [recording] };
 * const { diagnosis, plan } = reviewPractice([summarizeSession(session)]);
 * diagnosis.verdict; // => { kind: "cannotTell", why: "tooFew" }
 * plan.minutes; // => 60
 * ```
 */
export function reviewPractice(sessions: readonly SessionSummary[], options: ReviewPracticeOptions = {}): PracticeReview {
  requireObject(WHERE, "options", options);
  const { minutes = 60, wanted = 0.95, level = 0.95, seed = 1, group } = options;
  requireNumber(WHERE, "options.minutes", minutes, 10, 240);
  requireNumber(WHERE, "options.wanted", wanted, 0.5, 0.99);
  requireNumber(WHERE, "options.level", level, 0.6, 0.9999);
  requireSeed(WHERE, seed);
  requireSummaries(WHERE, "sessions", sessions, 1);
  requireOnePerson(sessions);
  requireGroup(group, sessions[0]!);

  const all = inOrder(sessions);
  const spells = equipmentSpells(all);
  const present = spells[spells.length - 1]!;
  const now = present.slice(-SESSIONS_OF_A_PERIOD);
  const comparison = comparePeriods(present.length >= SESSIONS_TO_COMPARE ? present : all, level);
  const courses = measureCourses(present, level);
  const diagnosis = diagnose(present, { level, seed, ...(group && { reference: { group } }) });
  const pace = reviewPace(now, wanted, level);
  const plateau = courses.find(({ measure }) => measure === "acquisitionTime")?.plateau;
  const plan = planPractice({
    minutes,
    diagnosis,
    ...(pace.advice && { pace: pace.advice }),
    ...(plateau && { plateau: plateau.verdict }),
  });
  const described = spells.map(describeSpell);
  const unknownEquipment = present.some(({ warnings }) => warnings.includes("equipmentUnknown"));
  return {
    header: { library: "aimed-movement", version: VERSION, schema: 1, options: { level, seed, minutes, wanted } },
    person: all[0]!.person,
    unit: all[0]!.space.unit,
    from: all[0]!.startedAt,
    to: all[all.length - 1]!.startedAt,
    sessions: all.length,
    rows: all.reduce((sum, { rows }) => sum + rows.length, 0),
    spells: described,
    recent: recentOf(now, level),
    ...(comparison && { comparison }),
    courses,
    diagnosis,
    pace,
    plan,
    answers: {
      cannotSay: answerUnknown(comparison, courses, diagnosis, pace, unknownEquipment),
      costsMost: answerCost(diagnosis),
      isItReal: answerChange(all.length, comparison, courses),
      isItTheEquipment: answerEquipment(described, diagnosis, comparison, all),
      whatNext: answerNext(plan, pace.advice),
      whenToStop: answerStop(plan),
    },
  };
}

function requireOnePerson(sessions: readonly SessionSummary[]): void {
  const { person } = sessions[0]!;
  const other = sessions.findIndex((session) => session.person !== person);
  if (other >= 0) {
    throw new RangeError(
      `${WHERE}: sessions must be of one person, got ${show(person)} and, at [${other}], ${show(sessions[other]!.person)}`,
    );
  }
}

function requireGroup(group: ReviewPracticeOptions["group"], first: SessionSummary): void {
  if (group === undefined) return;
  if (!Array.isArray(group))
    throw new TypeError(`${WHERE}: options.group must be an array with one list of sessions per person, got ${show(group)}`);
  for (const [i, member] of (group as readonly (readonly SessionSummary[])[]).entries()) {
    requireSummaries(WHERE, `options.group[${i}]`, member, 1);
    requireSummaries(WHERE, `sessions and options.group[${i}]`, [first, ...member], 2);
  }
}

/** The first sessions against the last ones; `undefined` when there are too few to split. */
function comparePeriods(sessions: readonly SessionSummary[], level: number): SessionsComparison | undefined {
  if (sessions.length < SESSIONS_TO_COMPARE) return undefined;
  const size = Math.min(SESSIONS_OF_A_PERIOD, Math.floor(sessions.length / 2));
  return compareSessions(sessions.slice(0, size), sessions.slice(-size), { level });
}

/** The recent sessions as one set; their rows are counted from different zeros, so that nobody can say how long anyone waited. */
function recentOf(now: readonly SessionSummary[], level: number): PracticeReview["recent"] {
  const rows = now.flatMap((session) => session.rows);
  return {
    from: now[0]!.startedAt,
    to: now[now.length - 1]!.startedAt,
    sessions: now.length,
    summary: summarize(rows, { unit: now[0]!.space.unit, level }),
  };
}
