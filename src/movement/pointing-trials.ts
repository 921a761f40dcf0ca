import type { PointingTrials } from "../fitts/types.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { requireOneOf, show } from "../math/require.js";
import type { Acquisition } from "./types.js";

/** Options of `pointingTrials`. */
export interface PointingTrialsOptions {
  /** What the movement time is: `"goToPress"` (default) from target shown, or the previous press of a sequence, to the first press; `"onsetToPress"` leaves the response latency out. */
  readonly time?: "goToPress" | "onsetToPress";
  /** The nominal amplitude and width of a row's condition. Default: rows of one block and width are a condition, and its amplitude is the mean of theirs. */
  readonly condition?: (row: Acquisition) => { readonly amplitude: number; readonly width: number };
  /** Name of the person who made the rows, default `"1"`. */
  readonly person?: string;
}

/** Acquisitions as trials for `throughput`, and which they are. */
export interface PointingTrialsOfRows {
  readonly trials: PointingTrials;
  /** Indices of the rows that became trials, in the order of the columns. */
  readonly kept: readonly number[];
  /** Rows without a press, without an axis to aim along, or (with `"onsetToPress"`) without an onset before the press. */
  readonly leftOut: { readonly noPress: number; readonly noAxis: number; readonly noOnset: number };
  /** `mixedAmplitudes`: amplitudes within a condition vary by more than a tenth of their mean, so that one effective width is no measure of them. */
  readonly warnings: readonly "mixedAmplitudes"[];
}

/** Amplitudes that vary by more than this share of their mean are more than one condition. */
const ONE_CONDITION = 0.1;

/**
 * Turns acquisition rows into the trials that `throughput`, `excludeTrials` and `reviewThroughput` take: first presses, hits and misses.
 *
 * `along` is the error of the first press along the axis from the start of the movement to the target's centre, `travelled` the distance covered along
 * it, `hit` whether that press hit. Joins of several people's trials are joins of the columns.
 *
 * @param rows - rows of `analyze` or of an analyzer
 * @param options - see `PointingTrialsOptions`
 * @returns columns for `throughput`, the rows they came from, and how many were left out and why
 * @throws TypeError if `rows` is not an array; RangeError if an option is out of range or a condition is not above 0
 * @see ISO 9241-411 (recalled) for what a trial is; the default condition is a choice of this library
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 5, movements: 20, targets: { amplitude: [400, 400], widths: [40] } });
 * const { trials, leftOut } = pointingTrials(analyze(recording));
 * trials.along.length + leftOut.noPress + leftOut.noAxis; // => 20
 * ```
 */
export function pointingTrials(rows: readonly Acquisition[], options: PointingTrialsOptions = {}): PointingTrialsOfRows {
  if (!Array.isArray(rows)) throw new TypeError(`pointingTrials: rows must be an array of acquisitions, got ${show(rows)}`);
  const { time = "goToPress", condition, person = "1" } = options;
  requireOneOf("pointingTrials", "options.time", time, ["goToPress", "onsetToPress"]);
  if (condition !== undefined && typeof condition !== "function") {
    throw new TypeError(`pointingTrials: options.condition must be a function, got ${show(condition)}`);
  }
  const all: readonly Acquisition[] = rows;
  const leftOut = { noPress: 0, noAxis: 0, noOnset: 0 };
  const presses = all.flatMap((row, at) => {
    const { go, onset, press } = row.times;
    const along = row.errors.press?.along;
    if (press === undefined) leftOut.noPress++;
    else if (along === undefined || row.amplitude === undefined) leftOut.noAxis++;
    else if (time === "onsetToPress" && !(onset !== undefined && onset < press)) leftOut.noOnset++;
    else return [{ at, row, along, amplitude: row.amplitude, movementTime: press - (time === "onsetToPress" ? onset! : go) }];
    return [];
  });
  const groups = amplitudesByBlock(presses);
  const means = new Map([...groups].map(([group, amplitudes]) => [group, meanAndSd(amplitudes).mean]));
  const nominal = condition ?? ((row: Acquisition) => ({ amplitude: means.get(groupOf(row))!, width: row.width }));
  const conditions = presses.map(({ row, at }) => requireCondition(nominal(row), at));
  const column = (values: readonly number[]): Float64Array => Float64Array.from(values);
  return {
    trials: {
      amplitude: column(conditions.map(({ amplitude }) => amplitude)),
      width: column(conditions.map(({ width }) => width)),
      movementTime: column(presses.map((press) => press.movementTime)),
      along: column(presses.map((press) => press.along)),
      travelled: column(presses.map((press) => press.amplitude + press.along)),
      hit: column(presses.map(({ row }) => (row.outcome === "hit" ? 1 : 0))),
      person: presses.map(() => person),
    },
    kept: presses.map(({ at }) => at),
    leftOut,
    warnings: condition === undefined && [...groups.values()].some(isMixed) ? ["mixedAmplitudes"] : [],
  };
}

function groupOf(row: Acquisition): string {
  return `${row.width} ${row.block}`;
}

function amplitudesByBlock(presses: readonly { readonly row: Acquisition; readonly amplitude: number }[]): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  for (const { row, amplitude } of presses) {
    const group = groups.get(groupOf(row));
    if (group === undefined) groups.set(groupOf(row), [amplitude]);
    else group.push(amplitude);
  }
  return groups;
}

function isMixed(amplitudes: readonly number[]): boolean {
  const { mean, sd } = meanAndSd(amplitudes);
  return sd > ONE_CONDITION * mean;
}

function requireCondition(condition: { readonly amplitude: number; readonly width: number }, at: number): typeof condition {
  for (const name of ["amplitude", "width"] as const) {
    const value = condition?.[name];
    if (!(typeof value === "number" && value > 0 && Number.isFinite(value))) {
      throw new RangeError(`pointingTrials: options.condition must give ${name} above 0 for rows[${at}], got ${value}`);
    }
  }
  return condition;
}
