// What a module of this folder hands back: one line per figure, or the reason why there is none.

/** A measured figure beside its bar. */
export interface Figure {
  /** `folder/what`, unique over all modules: `"movement/onset latency error"`. */
  readonly name: string;
  /** The figure itself, finite; its unit stands in `bar`. */
  readonly value: number;
  /** What is asked of the value, in words with its unit: `"<= 12 ms"`; `"printed"` for a figure that is only reported. */
  readonly bar: string;
  /** Whether the value meets its bar; `true` for a figure that is only reported. */
  readonly ok: boolean;
  /** Where the truth or the bar comes from. */
  readonly source: string;
}

/** A figure that could not be measured here, because the data it needs are absent. */
export interface Skipped {
  readonly name: string;
  /** Which data are absent. */
  readonly skipped: string;
}

export type Outcome = Figure | Skipped;

/** What each module of this folder exports, `run.ts` and this file aside. */
export interface FigureModule {
  /** `quick` asks for the smaller run: the same figures from fewer repetitions. */
  figures(quick: boolean): Promise<readonly Outcome[]>;
}
