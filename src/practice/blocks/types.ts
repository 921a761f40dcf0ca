/** One block of a part, as it went. */
export interface PractisedBlock {
  /** Acquisitions, a whole number of at least 1, and how many of them hit at the first press. */
  readonly trials: number;
  readonly hits: number;
  /** Size of the error at the end of the primary submovement: mean distance, or root mean square; the same one in every block, in one length unit. */
  readonly primaryError?: number;
  /** Mean or median response latency, seconds, above 0. */
  readonly latency?: number;
  /** Mean or median movement time, seconds, above 0. */
  readonly movementTime?: number;
  /** Whether there was any pain, tingling, numbness or weakness. Only the person can know. */
  readonly symptoms?: boolean;
}

/** What made a stop rule fire. */
export type StopCause = "symptoms" | "hitShare" | "primaryError" | "latency";

/** Whether to go on, with what decided. */
export interface BlocksVerdict {
  readonly stop: boolean;
  /**
   * `stopToday`: symptoms. `stopOrSwitchPart`: this part has had enough for today. `slowDown`: the blocks were poor, but made faster than the slow pace. `goOn`:
   * nothing speaks against it, which is no proof that nothing is wrong.
   */
  readonly advice: "goOn" | "slowDown" | "stopOrSwitchPart" | "stopToday";
  /** Every rule that fired, one sentence each with the figures. */
  readonly because: readonly { readonly cause: StopCause; readonly reason: string }[];
  /** Rules that could not be applied to the last blocks: too few, or what they need was not given. */
  readonly notJudged: readonly StopCause[];
}
