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
  | "missingData";

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
    }
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };
