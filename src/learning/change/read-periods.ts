import { meanAndSd } from "../../math/mean-and-sd.js";
import { medianInPlace } from "../../math/median.js";
import { show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import type { ChangeKind } from "./comparison.js";

/** Squares of larger values, and of shares of them, would not fit into a double. */
const LARGEST = 1e100;

/** Session values, or the trials of each session. */
export type Period = ArrayLike<number> | readonly ArrayLike<number>[];

/** The value of each session, checked: a list as it is, or the mean or median of each session's trials. */
export function readPeriod(where: string, name: string, period: Period, centre: "mean" | "median", kind: ChangeKind): Float64Array {
  const values = ofTrials(period) ? fromTrials(where, name, period, centre) : fromValues(where, name, period);
  const far = values.findIndex((value) => Math.abs(value) > LARGEST);
  if (far !== -1) throw new RangeError(`${where}: ${name}[${far}] must lie within -1e100 and 1e100, got ${values[far]}`);
  if (kind === "difference") return values;
  const at = values.findIndex((value) => value <= 0);
  if (at === -1) return values;
  throw new RangeError(`${where}: ${name}[${at}] must be above 0 where options.kind is "percent", got ${values[at]}`);
}

function ofTrials(period: Period): period is readonly ArrayLike<number>[] {
  const first: unknown = Array.isArray(period) ? period[0] : undefined;
  return typeof first === "object" && first !== null;
}

function fromValues(where: string, name: string, values: ArrayLike<number>): Float64Array {
  requireList(where, name, values);
  return Float64Array.from(values);
}

function fromTrials(where: string, name: string, sessions: readonly ArrayLike<number>[], centre: "mean" | "median"): Float64Array {
  return Float64Array.from(sessions, (trials, i) => {
    if (typeof trials !== "object") {
      throw new TypeError(`${where}: ${name}[${i}] must be a list of trials like those before it, got ${show(trials)}`);
    }
    requireList(where, `${name}[${i}]`, trials);
    if (trials.length === 0) throw new RangeError(`${where}: ${name}[${i}] must hold at least one trial, got none`);
    return centre === "mean" ? meanAndSd(trials).mean : medianInPlace(Float64Array.from(trials));
  });
}
