import { requireNumber, requireObject } from "../math/require.js";
import type { SamplingReport } from "../trace/quality/sampling-report.js";
import { samplingSupport as supportOf } from "../trace/quality/sampling-support.js";

const WHERE = "samplingSupport";
/** Error of the peak speed of a minimum-jerk movement of duration T by differences over dt, averaged over where the samples fall: this times (dt/T)^2. */
const FIRST_DIFFERENCES = -1.33;
const CENTRAL_DIFFERENCES = -3.33;
/** Steps of the position that a target should hold, and that a spread should hold, before rounding needs taking out. */
const STEPS_PER_WIDTH = 10;
const STEPS_PER_SPREAD = 3;

/** How something was recorded, and what is to be measured in it. */
export interface SamplingSetup {
  /** Reports a second while moving, Hz, above 0. */
  readonly rateHz: number;
  /** Smallest change of a coordinate, in the unit of length, at least 0. Default 0: no rounding. */
  readonly quantum?: number;
  /** Smallest change of a time stamp, seconds, at least 0. Default 0. */
  readonly timeQuantum?: number;
  /** Duration of the movements, seconds, above 0. Default 0.2, a fast one. Longer ones are easier to support. */
  readonly movementTime?: number;
  /** Standard deviation of the times studied (such as the press about the stop), seconds, above 0. Default 0.025. Smaller asks for finer timing. */
  readonly timingSd?: number;
  /** Width of the smallest target, above 0. Default: none, and no verdict on it. */
  readonly width?: number;
  /** Standard deviation of the positions studied (such as endpoints), above 0. Default: none, and no verdict on it. */
  readonly positionSd?: number;
}

/** What a rate and a step of position do to the measures. */
export interface SamplingConsequences {
  /** Whether each measure is carried: see `SamplingReport`. */
  readonly supports: SamplingReport["supports"];
  /** Relative error of peak speed, negative for too low, by first and by central differences without further filtering. */
  readonly peakSpeedBias: { readonly first: number; readonly central: number };
  /** Standard deviation that sampling alone puts on the time of an event, seconds. */
  readonly timeSd: number;
  /** `timingSd` with that taken out, seconds; `null` where sampling explains all of it. */
  readonly timingSdFreed: number | null;
  /** Steps of position in the target, and whether they are 10 or more; `null` without width or quantum. */
  readonly stepsPerWidth: number | null;
  readonly widthFineEnough: boolean | null;
  /** The same for the spread, 3 or more, and `positionSd` with rounding taken out (Sheppard); `null` where rounding explains all of it, or without spread. */
  readonly stepsPerSd: number | null;
  readonly sdFineEnough: boolean | null;
  readonly positionSdFreed: number | null;
}

/**
 * What a sampling rate and a step of position can carry, before anything is recorded: which measures, with what error.
 *
 * Peak speed, peak deceleration and jerk take 12, 20 and 30 reports in a movement, tremor 60 Hz; a time is uncertain by u = max(dt, tick)/sqrt(12) and carried where u is below a
 * fifth of the spread studied; spreads are freed by s^2 - u^2, and s^2 - q^2/12 for positions in steps of q. Peak speed of a minimum-jerk movement errs by -1.33 (dt/T)^2 with first and
 * -3.33 (dt/T)^2 with central differences. For a recording that exists, `assessSampling` measures rate and quanta and gives the same `supports`. Cost O(1).
 *
 * @param setup - see `SamplingSetup`
 * @returns supports, errors and freed spreads; plain data
 * @throws TypeError or RangeError if a number is out of range
 * @see Sheppard's correction: textbook (recalled); errors of the differences worked out for minimum-jerk movements, see the page
 * @example
 * ```ts
 * const at125 = samplingSupport({ rateHz: 125, movementTime: 0.3, quantum: 1, width: 24 });
 * at125.supports.peakDeceleration.ok; // => true
 * at125.supports.jerk.ok; // => true
 * at125.timeSd; // => 0.0023
 * at125.stepsPerWidth; // => 24
 * ```
 */
export function samplingSupport(setup: SamplingSetup): SamplingConsequences {
  requireObject(WHERE, "setup", setup);
  const { rateHz, quantum = 0, timeQuantum = 0, movementTime = 0.2, timingSd = 0.025, width, positionSd } = setup;
  for (const [name, value] of Object.entries({ rateHz, movementTime, timingSd, width, positionSd })) {
    if (value !== undefined || name === "rateHz") requireNumber(WHERE, `setup.${name}`, value as number, 0, undefined, true);
  }
  requireNumber(WHERE, "setup.quantum", quantum, 0);
  requireNumber(WHERE, "setup.timeQuantum", timeQuantum, 0);
  const step = 1 / rateHz;
  const share = (step / movementTime) ** 2;
  const supports = supportOf(rateHz, timeQuantum === 0 ? undefined : timeQuantum, movementTime, timingSd);
  const timeSd = supports.eventTiming.value!;
  const steps = (length: number | undefined): number | null => (length === undefined || quantum === 0 ? null : length / quantum);
  const stepsPerWidth = steps(width);
  const stepsPerSd = steps(positionSd);
  return {
    supports,
    peakSpeedBias: { first: FIRST_DIFFERENCES * share, central: CENTRAL_DIFFERENCES * share },
    timeSd,
    timingSdFreed: freed(timingSd, timeSd ** 2),
    stepsPerWidth,
    widthFineEnough: stepsPerWidth === null ? null : stepsPerWidth >= STEPS_PER_WIDTH,
    stepsPerSd,
    sdFineEnough: stepsPerSd === null ? null : stepsPerSd >= STEPS_PER_SPREAD,
    positionSdFreed: positionSd === undefined ? null : freed(positionSd, (quantum * quantum) / 12),
  };
}

/** A standard deviation with a variance of known origin taken out. */
function freed(sd: number, variance: number): number | null {
  const rest = sd * sd - variance;
  return rest > 0 ? Math.sqrt(rest) : null;
}
