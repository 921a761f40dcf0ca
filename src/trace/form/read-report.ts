/** Why something in a file was left out. */
export type ReadReason =
  /** The last line or row ends before it is whole. */
  | "cut"
  /** Not JSON, or not an object. */
  | "notJson"
  /** Bytes that are no UTF-8. */
  | "notUtf8"
  /** Longer than `maxLineLength`. */
  | "tooLong"
  /** A quote inside an unquoted field, text after a closing quote, or a quote never closed. */
  | "quotes"
  /** A row with more or fewer fields than the header. */
  | "fieldCount"
  | "unknownKind"
  | "unknownField"
  | "missingField"
  /** A field given twice in one object. */
  | "twice"
  /** Of the wrong kind, not finite, or out of range. */
  | "badValue"
  | "unequalColumns"
  /** The device's own code for a missing position. */
  | "missingCode"
  /** Time that runs backward, where it was not sorted. */
  | "backward"
  /** Names a target or trial that the recording does not have. */
  | "unknownName"
  /** Belongs to a recording that was not begun. */
  | "noRecording"
  /** A session, recording, id or key that was there before. */
  | "duplicate"
  /** Stands before the session line. */
  | "beforeSession";

/** What was met, and what became of it: `found` is always `kept` plus `dropped`. */
export interface ReadCount {
  readonly found: number;
  readonly kept: number;
  readonly dropped: number;
}

/** One thing that was left out or put right. */
export interface ReadNote {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** From 1, in UTF-16 units of the line. */
  readonly column: number;
  readonly reason: ReadReason;
  /** `"dropped"`: the line, row, sample or point is gone; `"cleared"`: one field of it is, the rest stands; `"taken"`: read all the same. */
  readonly action: "dropped" | "cleared" | "taken";
  /** The message that would have been thrown. */
  readonly why: string;
}

/** What reading met. Nothing leaves a file without a trace here. */
export interface ReadReport {
  readonly file: string;
  readonly form: "jsonl" | "csv";
  /** Lines with content (JSON Lines), or rows below the headers (CSV), over all tables. */
  readonly lines: ReadCount;
  readonly samples: ReadCount;
  /** Samples of the tracks of moving targets. */
  readonly trackPoints: ReadCount;
  /** Times of frames. */
  readonly frames: ReadCount;
  /** Lines that completed or replaced an earlier one: both count as kept, one entry stands in the session. */
  readonly replaced: number;
  /** Samples, track points and frames whose time lay before an earlier one's, put into time order (`repair` only). */
  readonly sorted: number;
  /** The first hundred things left out or put right, in the order met. */
  readonly notes: readonly ReadNote[];
  /** How many there were of each reason; a refused line counts once, whatever it held. */
  readonly reasons: Readonly<Partial<Record<ReadReason, number>>>;
  /** The last line was cut, as a crash leaves it, and was left out. It is among `notes` and `lines.dropped`. */
  readonly incomplete: boolean;
  /** The last line was read but has no line end. In a CSV table a cut inside its last field cannot be seen. */
  readonly unterminated: boolean;
  /** Fields of the session and its recording that no table states, filled with placeholders (CSV only). */
  readonly assumed: readonly string[];
  /** Columns that are not part of the form, not read (CSV only), as `table.column`. */
  readonly ignored: readonly string[];
}
