import { fitSpeedAccuracy } from "../pacing/fit-speed-accuracy.js";
import { paceTrials } from "../pacing/pace-trials.js";
import { type ChartData, chartSpecs } from "./chart-specs.js";
import type { ChartSpec } from "./charts/theme.js";
import { inOrder, requireSummaries } from "./comparison/require-summaries.js";
import { sayDate } from "./review/say.js";
import type { PracticeReview, SessionSummary } from "./types.js";

/** Sessions whose time budgets stand below each other at most; of more, every so many. */
const MOST_BARS = 12;
/** Measures whose course is drawn. */
const COURSES: readonly string[] = ["acquisitionTime", "hitShare"];

/**
 * The charts that go with one person's report: time budget over the sessions, diagnosis, changes, courses, where presses fall, speed and accuracy, following, a sequence, the
 * plan. What the recordings do not hold is left out.
 *
 * @param review - a result of `reviewPractice`
 * @param sessions - the sessions it was made from
 * @returns chart specifications, see `chartSpecs`
 * @throws TypeError or RangeError if `sessions` are not summaries of one space, or none
 * @see `chartSpecs`, which makes them
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 30 });
 * const session = { person: "Ada", startedAt: "2026-03-02T18:00:00Z", equipment: { id: "desk" }, recordings: [recording] };
 * const sessions = [summarizeSession(session)];
 * reviewCharts(reviewPractice(sessions), sessions).map(({ id }) => id); // => ["endpoints", "time-budget", "part-excess", "day-plan"]
 * ```
 */
export function reviewCharts(review: PracticeReview, sessions: readonly SessionSummary[]): ChartSpec[] {
  requireSummaries("reviewCharts", "sessions", sessions, 1);
  const all = inOrder(sessions);
  const recent = all.slice(-review.recent.sessions);
  const rows = recent.flatMap((session) => session.rows);
  const courses = review.courses.filter(({ measure, value }) => COURSES.includes(measure) && value.length > 1);
  const every = Math.ceil(all.length / MOST_BARS);
  const shown = all.filter((_, i) => (all.length - 1 - i) % every === 0);
  const pursuit = [...all].reverse().flatMap(({ pursuits }) => pursuits.filter(({ status }) => status === "ok"))[0];
  const sequence = longestSequence(recent);
  const { trials } = paceTrials(rows);
  const data: ChartData = {
    endpoints: rows,
    timeBudget: shown.map((session) => ({ label: sayDate(session.startedAt), rows: session.rows })),
    ...(review.pace.recommended?.movementTime.ok && {
      speedAccuracy: { fit: fitSpeedAccuracy(trials, { unit: review.unit }), recommended: review.pace.recommended, trials },
    }),
    courses,
    ...(pursuit && pursuit.response.x.frequencies.length > 0 && { pursuit: pursuit.response.x }),
    ...(sequence.length > 1 && { sequence }),
    diagnosis: review.diagnosis,
    ...(review.comparison && { comparison: review.comparison }),
    plan: review.plan,
  };
  return chartSpecs(data);
}

/** Rows of the last of the longest sequences. Recordings of one session may use the same names for their trials, so the order of the targets decides, too. */
function longestSequence(sessions: readonly SessionSummary[]): SessionSummary["rows"] {
  let longest: SessionSummary["rows"] = [];
  for (const { rows, sequences } of sessions) {
    for (const { trial, order } of sequences.flatMap((analysis) => analysis.sequences)) {
      const first = rows.findIndex((_, i) => order.every((target, k) => rows[i + k]?.trial === trial && rows[i + k]?.target === target));
      if (first >= 0 && order.length >= longest.length) longest = rows.slice(first, first + order.length);
    }
  }
  return longest;
}
