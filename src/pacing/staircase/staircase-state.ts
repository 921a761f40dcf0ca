/** The rule of a staircase, every default filled in. */
export interface StaircaseSettings {
  readonly start: number;
  /** Which way difficulty grows: a smaller or a larger level is harder. */
  readonly harder: "down" | "up";
  /** Steps are factors on the level, or differences. */
  readonly scale: "log" | "linear";
  /** Hits in a row, at one level, that make it harder. */
  readonly inARow: number;
  /** Share of hits that the rule holds: target^inARow stepHarder = (1 - target^inARow) stepEasier. */
  readonly target: number;
  /** Sizes of a step to easier, one after another: shares of the level (log) or differences. */
  readonly steps: readonly number[];
  /** Reversals after which the next of `steps` applies. */
  readonly stepReversals: number;
  /** Levels that are never passed; `null` where there is no such bound. */
  readonly lowest: number | null;
  readonly highest: number | null;
}

/** A change of direction. */
export interface StaircaseReversal {
  /** Trial whose outcome turned the staircase, counted from 0, and its level. */
  readonly trial: number;
  readonly level: number;
  /** Where the staircase went from there. */
  readonly toward: "harder" | "easier";
}

/** All that a staircase knows: plain data, to be kept and read back as JSON between any two trials. */
export interface StaircaseState {
  readonly settings: StaircaseSettings;
  /** Level of the trial to come. */
  readonly level: number;
  /** Hits in a row since the level last changed, below `settings.inARow`. */
  readonly row: number;
  /** The last move; `null` before the first. */
  readonly direction: "harder" | "easier" | null;
  /** Level and outcome (1 hit, 0 miss) of every trial done. */
  readonly levels: readonly number[];
  readonly hits: readonly number[];
  readonly reversals: readonly StaircaseReversal[];
  /** Trials, counted from 0, after which a bound cut the step short. */
  readonly cut: readonly number[];
}
