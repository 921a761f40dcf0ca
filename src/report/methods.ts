import { requireObject } from "../math/require.js";
import { sayCount } from "../practice/say.js";
import { DEFAULT_CUTOFF } from "../trace/condition/butterworth.js";
import { DEFAULT_MAX_GAP } from "../trace/condition/grid-plan.js";
import { sayDate } from "./review/say.js";
import type { PracticeReview, SessionSummary, SessionsComparison } from "./types.js";

/**
 * A paragraph for the methods section of a paper: what was computed, by which version, with which options.
 *
 * It says what this library did, not that it suits the study: add task, participants, device and instructions. Options that the result echoes are given as they
 * were; conditioning and segmentation as this version does them by default, since `summarizeSession` leaves them alone.
 *
 * @param result - a result of `summarizeSession`, `compareSessions` or `reviewPractice`
 * @returns one paragraph of plain text, without a line break
 * @throws TypeError if `result` is none of the three
 * @see each statement is a method described on the page "Method notes"
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 30 });
 * const session = { person: "Ada", startedAt: "2026-03-02T18:00:00+01:00", equipment: { id: "desk" }, recordings: [recording] };
 * methods(summarizeSession(session)).startsWith("Pointer recordings were analysed with aimed-movement"); // => true
 * ```
 */
export function methods(result: SessionSummary | SessionsComparison | PracticeReview): string {
  requireObject("methods", "result", result);
  const { header } = result;
  if (header?.library !== "aimed-movement") {
    throw new TypeError(
      "methods: result must be a result of summarizeSession, compareSessions or reviewPractice, got an object without its header",
    );
  }
  const { version, schema, options } = header;
  return [
    `Pointer recordings were analysed with aimed-movement ${version} (result schema ${schema}).`,
    dataSentence(result),
    `Positions were put onto an even grid at the device's own rate, gaps of more than ${1000 * DEFAULT_MAX_GAP} ms during motion being left out, and low-pass filtered at ${DEFAULT_CUTOFF} Hz (second-order Butterworth, forward and backward); velocities are central differences.`,
    "Submovements were told from peaks of speed above the noise floor of that chain; the primary submovement ends at the first minimum of speed after the peak, onset and stop were extrapolated to rest along the square root of speed.",
    "Times per acquisition were divided into latency, primary submovement, correction, clutch, verification and recovery; misses and timeouts were kept.",
    ...furtherSentences(result),
    `Intervals are at ${percent(options.level)} %${"seed" in options ? `; random steps started from seed ${options.seed}` : ""}.`,
  ].join(" ");
}

function dataSentence(result: SessionSummary | SessionsComparison | PracticeReview): string {
  if ("answers" in result) {
    const { sessions, rows, from, to } = result;
    return `The data are ${sayCount(sessions, "session")} of one person from ${sayDate(from)} to ${sayDate(to)} with ${sayCount(rows, "acquisition")}.`;
  }
  if ("measures" in result) {
    const { before, after } = result;
    return `The data are two periods of ${sayCount(before.sessions, "session")} (${sayCount(before.rows, "acquisition")}) and ${sayCount(after.sessions, "session")} (${sayCount(after.rows, "acquisition")}).`;
  }
  const rates = result.sampling.flatMap(({ rate }) => (rate.ok ? [rate.value.toFixed(0)] : []));
  return `The data are one session of ${sayDate(result.startedAt)} with ${sayCount(result.rows.length, "acquisition")}, reported at ${rates.length > 0 ? `${[...new Set(rates)].join(", ")} Hz in motion` : "an unknown rate"}.`;
}

function furtherSentences(result: SessionSummary | SessionsComparison | PracticeReview): string[] {
  const periods =
    "Periods were compared with the session as unit, session means being taken at the same index of difficulty (analysis of covariance), by Welch's interval allowed for the autocorrelation of sessions; on differing equipment a change counted only where it outlasted the known effect of the difference.";
  if ("measures" in result) return [periods];
  if (!("answers" in result)) return [];
  const { diagnosis } = result;
  return [
    ...(result.comparison ? [periods] : []),
    `Time beyond the reference (${diagnosis.reference.kind === "group" ? "a group" : diagnosis.reference.kind === "earlier" ? "earlier sessions" : "the person's own best sessions"}) was divided among the parts of the movement, each given what it received from the one before, with ${diagnosis.header.options.resamples} resamples of sessions.`,
  ];
}

function percent(level: number): string {
  return String(Number((100 * level).toFixed(2)));
}
