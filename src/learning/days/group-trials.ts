import { show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";

/** Trials in the order they were done, as columns of one length. */
export interface PracticeTrials {
  /** Session of each trial: any number, equal within a session and never falling. */
  readonly session: ArrayLike<number>;
  /** The measure, one unit; above 0 for log-normal errors. */
  readonly value: ArrayLike<number>;
  /** Day of each trial, never falling; a session's is that of its first trial, and its whole part tells nights. Default: a new day for each session. */
  readonly day?: ArrayLike<number>;
}

/** A session as a range of trials, `to` excluded. */
export interface TrialRange {
  readonly session: number;
  readonly day: number | null;
  readonly from: number;
  readonly to: number;
}

/** Checks the columns and finds the sessions in them. */
export function groupTrials(where: string, trials: PracticeTrials, positive: boolean): TrialRange[] {
  if (trials === null || typeof trials !== "object")
    throw new TypeError(`${where}: trials must be an object of columns, got ${show(trials)}`);
  const { session, value, day } = trials;
  requireList(where, "trials.session", session);
  requireList(where, "trials.value", value);
  requireSameLength(where, "trials.value", value, session);
  requireOrder(where, "trials.session", session);
  if (day !== undefined) {
    requireList(where, "trials.day", day);
    requireSameLength(where, "trials.day", day, session);
    requireOrder(where, "trials.day", day);
  }
  const ranges: TrialRange[] = [];
  let from = 0;
  for (let i = 0; i < session.length; i++) {
    if (positive && !(value[i]! > 0)) {
      throw new RangeError(`${where}: trials.value[${i}] must be above 0 with options.errors "lognormal", got ${value[i]}`);
    }
    if (i + 1 < session.length && session[i + 1] === session[i]) continue;
    ranges.push({ session: session[i]!, day: day === undefined ? null : day[from]!, from, to: i + 1 });
    from = i + 1;
  }
  return ranges;
}

function requireSameLength(where: string, name: string, list: ArrayLike<number>, session: ArrayLike<number>): void {
  if (list.length === session.length) return;
  throw new RangeError(`${where}: ${name} must have ${session.length} entries like trials.session, got ${list.length}`);
}

function requireOrder(where: string, name: string, list: ArrayLike<number>): void {
  for (let i = 1; i < list.length; i++) {
    if (list[i]! >= list[i - 1]!) continue;
    throw new RangeError(`${where}: ${name}[${i}] must be at least the entry before it, ${list[i - 1]}, got ${list[i]}`);
  }
}
