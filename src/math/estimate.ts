/** Why a number cannot be given: a closed list, so that a caller can handle every case. */
export type Reason =
  /** Fewer data than the measure needs. */
  | "tooFew"
  /** Start and target coincide, or there is nothing to define a direction. */
  | "noAxis"
  /** The measure needs a press and none was recorded. */
  | "noPress"
  /** The sampling rate or the position quantum hides what is asked for. */
  | "belowResolution"
  /** The data fit many values equally well. */
  | "notIdentified"
  /** The search did not settle. */
  | "notConverged"
  /** The data come from different equipment. */
  | "mixedEquipment"
  /** All values are equal where their spread is needed. */
  | "noSpread"
  /** Samples are missing where the measure needs them. */
  | "missingData"
  /** The fitted law never gets there. */
  | "outOfReach";

/**
 * Share of intervals of one kind, named 95 %, that held the truth in thousands of simulated sets of `n` independent values of three shapes: normal, skewed
 * (gamma of shape 2) and heavy-tailed (Student's t with 3 degrees of freedom).
 */
export interface IntervalCoverage {
  readonly n: number;
  readonly normal: number;
  readonly skewed: number;
  readonly heavyTailed: number;
}

/** A number with its unit, its sample size and, where one can be stated, its interval; or the reason why there is none. */
export type Estimate =
  | {
      readonly ok: true;
      readonly value: number;
      readonly unit: string;
      readonly n: number;
      /** Lower and upper end, in `unit`. */
      readonly interval?: readonly [number, number];
      /** Confidence level of `interval`, in (0, 1). */
      readonly level?: number;
      /** Where an interval named 95 % holds less than 90 %: what it held in simulation, at the measured size nearest below `n`. */
      readonly coverage?: IntervalCoverage;
    }
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };
