// What a report says, before it is dressed as HTML or as text.

/** A table: every row has as many cells as the head; the first cell of a row names it. */
export interface ReportTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A stretch of the report under its own heading. */
export interface ReportSection {
  /** For links within the page; letters and hyphens. */
  readonly id: string;
  readonly heading: string;
  readonly paragraphs: readonly string[];
  readonly points?: readonly string[];
  readonly tables?: readonly ReportTable[];
}

/** A whole report. */
export interface ReportDocument {
  readonly title: string;
  /** The first line: dates, numbers, equipment, and what cannot be said. */
  readonly lead: string;
  readonly sections: readonly ReportSection[];
  /** The last line. */
  readonly foot: string;
}
