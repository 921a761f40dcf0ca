import { requireOneOf, show } from "../math/require.js";
import type { Acquisition, Flag } from "../movement/types.js";
import type { PaceTrials } from "./types.js";

const WHERE = "paceTrials";
/** Rows with these flags have no movement time of their own. */
const SPOILT: readonly Flag[] = ["missingData", "belowResolution", "noMovement", "clutch", "movingTarget", "edge", "hidden", "gainChanged"];

/** Options of `paceTrials`. */
export interface PaceTrialsOptions {
  /** Which endpoint: of the `"press"` (default), movement time from onset to the stop, or to the press where that came first; or of the `"primary"` submovement, from onset to its end. */
  readonly endpoint?: "press" | "primary";
  /** The pace that a row was made at. Default: its block, as when each block has one instruction. */
  readonly pace?: (row: Acquisition) => string;
}

/** Acquisitions as trials at several paces, and which they are. */
export interface PaceTrialsOfRows {
  readonly trials: PaceTrials & {
    readonly across: Float64Array;
    readonly hit: Float64Array;
    readonly pressed: Float64Array;
    readonly pace: readonly string[];
  };
  /** Indices of the rows that became trials, in the order of the columns. */
  readonly kept: readonly number[];
  /** Rows without an axis to aim along or a known start, without an onset before the endpoint, or spoilt (data missing, lifted, at an edge, a moving target, …). */
  readonly leftOut: { readonly noAxis: number; readonly noOnset: number; readonly spoilt: number };
}

/** What of a row goes into the columns. */
interface Kept {
  readonly at: number;
  readonly movementTime: number;
  readonly amplitude: number;
  readonly width: number;
  readonly along: number;
  readonly across: number;
  readonly hit: boolean;
  readonly pressed: boolean;
  readonly pace: string;
}

/**
 * Turns acquisition rows into the trials that `fitSpeedAccuracy`, `recommendPace`, `advisePace` and `conditionalAccuracy` take: hits, misses and timeouts.
 *
 * Movement time runs from onset to stop (or to a press in motion): latency and verification do not depend on pace and would flatten every law. A first press that missed is
 * a miss, whatever came later. Rows that ended without a press are kept with `pressed` 0 and the time that had passed since onset (else go): missing a deadline is not fast.
 * Cost O(rows).
 *
 * @param rows - rows of `analyze` or of an analyzer, of one person
 * @param options - see `PaceTrialsOptions`
 * @returns columns, the rows they came from, and how many were left out and why
 * @throws TypeError if `rows` is not an array, `options.pace` not a function, or it gives no string; RangeError if an option is out of range
 * @see what counts as movement time is a choice of this library
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 5, movements: 20, cases: { timeout: 0.2 } });
 * const { trials, kept, leftOut } = paceTrials(analyze(recording));
 * kept.length + leftOut.noAxis + leftOut.noOnset + leftOut.spoilt; // => 20
 * trials.pressed.some((one) => one === 0); // => true
 * ```
 */
export function paceTrials(rows: readonly Acquisition[], options: PaceTrialsOptions = {}): PaceTrialsOfRows {
  if (!Array.isArray(rows)) throw new TypeError(`${WHERE}: rows must be an array of acquisitions, got ${show(rows)}`);
  const { endpoint = "press", pace = (row: Acquisition) => row.block } = options;
  requireOneOf(WHERE, "options.endpoint", endpoint, ["press", "primary"]);
  if (typeof pace !== "function") throw new TypeError(`${WHERE}: options.pace must be a function, got ${show(pace)}`);
  const leftOut = { noAxis: 0, noOnset: 0, spoilt: 0 };
  const all: readonly Acquisition[] = rows;
  const trials = all.flatMap((row, at): Kept[] => {
    const found = keep(row, at, endpoint, labelOf(pace(row), at));
    if (typeof found !== "string") return [found];
    leftOut[found]++;
    return [];
  });
  const column = (of: (trial: Kept) => number): Float64Array => Float64Array.from(trials, of);
  return {
    trials: {
      movementTime: column((trial) => trial.movementTime),
      amplitude: column((trial) => trial.amplitude),
      width: column((trial) => trial.width),
      along: column((trial) => trial.along),
      across: column((trial) => trial.across),
      hit: column((trial) => Number(trial.hit)),
      pressed: column((trial) => Number(trial.pressed)),
      pace: trials.map((trial) => trial.pace),
    },
    kept: trials.map(({ at }) => at),
    leftOut,
  };
}

function keep(row: Acquisition, at: number, endpoint: "press" | "primary", pace: string): Kept | "noAxis" | "noOnset" | "spoilt" {
  const { amplitude, width, times, errors } = row;
  const pressed = times.press !== undefined;
  const timedOut = endpoint === "press" && !pressed;
  // who never left and ran out of time is a timeout, too
  if (row.flags.some((flag) => SPOILT.includes(flag) && !(timedOut && flag === "noMovement"))) return "spoilt";
  if (amplitude === undefined || !(amplitude > 0) || row.flags.includes("noAxis")) return "noAxis";
  const basic = { at, amplitude, width, pace };
  if (timedOut) {
    const movementTime = times.end - (times.onset ?? times.go);
    return movementTime > 0 ? { ...basic, movementTime, along: 0, across: 0, hit: false, pressed: false } : "noOnset";
  }
  const end = endpoint === "primary" ? times.primaryEnd : Math.min(times.stop ?? times.press!, times.press!);
  const error = endpoint === "primary" ? errors.primary : errors.press;
  if (times.onset === undefined || end === undefined || !(end > times.onset)) return "noOnset";
  if (error?.along === undefined || error.across === undefined) return "noAxis";
  const hit = endpoint === "primary" ? error.inside : row.outcome === "hit";
  return { ...basic, movementTime: end - times.onset, along: error.along, across: error.across, hit, pressed: true };
}

function labelOf(label: unknown, at: number): string {
  if (typeof label !== "string") throw new TypeError(`${WHERE}: options.pace must give a string for rows[${at}], got ${show(label)}`);
  return label;
}
