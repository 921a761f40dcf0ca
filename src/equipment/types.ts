import type { Estimate } from "../math/estimate.js";
import type { Equipment } from "../trace/types.js";

/** What an equipment record can say, beside its name. */
export type EquipmentField = Exclude<keyof Equipment, "id">;

/** What a difference of equipment does to one measure, with no change of the person. */
export interface EquipmentEffect {
  /**
   * `latency`, `primaryTime`, `primaryError`, `correctionTime`, `verificationTime`, `acquisitionTime` (from go to press), `pursuitLag`, `pressTimingSd`; and, in percent, `lengthPx` (the
   * same mm in pixels), `visualAngle` (the same mm at the eye) and `handDistance` (of the same turn of the view).
   */
  readonly measure: string;
  /** After less before, in the unit of the measure. */
  readonly change: Estimate;
  readonly reason: string;
}

/** Two equipment records beside each other. */
export interface EquipmentComparison {
  /** `same`: one name, and agreement in all that both say. `differs`: in something that both say. `unknown`: two names, and nothing said that tells the difference. */
  readonly verdict: "same" | "differs" | "unknown";
  /** Fields that both give, with different values. */
  readonly differing: readonly EquipmentField[];
  /** Fields that only one of them gives; of refresh rate and latency also those that neither gives. */
  readonly unknown: readonly EquipmentField[];
  /** Mean delay from what happens to what is seen, after less before, seconds. `mixedEquipment` where the records cannot tell it. */
  readonly delay: Estimate;
  /** Measures whose change is known; a measure that is absent may change by an unknown amount. Times are absent where `delay` is not ok or more than the delay differs. */
  readonly effects: readonly EquipmentEffect[];
  /** One sentence. */
  readonly reason: string;
}

/** A duration in seconds; or the two ends it lies between, all equally likely; or lower end, likeliest value and upper end (a triangle). */
export type Duration = number | readonly [number, number] | readonly [number, number, number];

/** What is known of the way from the hand to the eye; leave out what is not known. */
export interface LatencyStages {
  /** Reports of the device a second, Hz. A movement waits half an interval for its report. */
  readonly reportHz?: number;
  /** From the report to the computer. */
  readonly transfer?: Duration;
  /** Through the operating system to the program. */
  readonly operatingSystem?: Duration;
  /** Refresh rate of the display, Hz. The event waits half a frame for the program, and half a frame while the picture is written. */
  readonly refreshHz?: number;
  /** Frame rate that the program is limited to, Hz; it then waits half of the longer interval. Default: the refresh rate. */
  readonly frameCapHz?: number;
  /** From input to finished frame. */
  readonly render?: Duration;
  /** Finished frames that wait to be shown, on average: 0 without synchronisation, usually 1 or more with it. */
  readonly queuedFrames?: number;
  /** Until the pixel has changed halfway. */
  readonly pixelResponse?: Duration;
  /** The whole, measured end to end (a camera, a photodiode). It overrides the sum. */
  readonly measured?: Duration;
}

/** How often a measure pays a delay, and why. */
export interface DelayPayment {
  readonly measure: string;
  /** Fewest and most times. */
  readonly times: readonly [number, number];
  readonly reason: string;
}

/** One stage of the way. Seconds. */
export interface LatencyStage {
  readonly stage: "report" | "transfer" | "operatingSystem" | "frameWait" | "render" | "queue" | "scanOut" | "pixelResponse";
  readonly mean: number;
  /** Standard deviation from event to event, about the mean. */
  readonly sd: number;
  /** Standard deviation of our knowledge of the mean: that of an even spread, or of a triangle, between the ends given. */
  readonly doubt: number;
  /** Lowest and highest value of a single event. */
  readonly low: number;
  readonly high: number;
}
