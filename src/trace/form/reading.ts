import type { MissingCode } from "../quality/missing-code.js";
import { type Path, type Problem, problemText, type Raw } from "./problem.js";
import type { ReadNote, ReadReason, ReadReport } from "./read-report.js";

/** Notes beyond these are counted only. */
const MOST_NOTES = 100;

export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** A line or row in hand, and where its parts stand. */
export interface Row {
  readonly file: string;
  readonly line: number;
  /** What an empty path is called. */
  readonly unit: "line" | "row" | "file";
  /** The last of its file, without a line end: what is wrong with it comes from a cut. */
  readonly mayBeCut: boolean;
  /** Column, from 1, of the value at a path. */
  column(path: Path): number;
}

export interface Tally {
  found: number;
  kept: number;
  dropped: number;
}

/** One act of reading: what was asked for, and the report as it grows. */
export interface Reading {
  readonly file: string;
  readonly repair: boolean;
  readonly maxLineLength: number;
  /** The device's code for a missing position. Data and not a function: code that calls a function of each reading is compiled anew for each. */
  readonly missing: MissingCode | undefined;
  readonly lines: Tally;
  readonly samples: Tally;
  readonly trackPoints: Tally;
  readonly frames: Tally;
  readonly notes: ReadNote[];
  readonly reasons: Partial<Record<ReadReason, number>>;
  readonly assumed: Set<string>;
  readonly ignored: Set<string>;
  replaced: number;
  sorted: number;
  incomplete: boolean;
  unterminated: boolean;
}

export function createReading(file: string, repair: boolean, maxLineLength: number, missing: MissingCode | undefined): Reading {
  const tally = (): Tally => ({ found: 0, kept: 0, dropped: 0 });
  return {
    file,
    repair,
    maxLineLength,
    missing,
    lines: tally(),
    samples: tally(),
    trackPoints: tally(),
    frames: tally(),
    notes: [],
    reasons: {},
    assumed: new Set(),
    ignored: new Set(),
    replaced: 0,
    sorted: 0,
    incomplete: false,
    unterminated: false,
  };
}

/** Throws, or with `repair` takes a note. What is wrong with a row that may be cut is the cut. */
export function refuse(reading: Reading, row: Row, problem: Problem, action: ReadNote["action"] = "dropped"): void {
  const { file, line } = row;
  if (row.mayBeCut) {
    reading.incomplete = true;
    note(reading, {
      file,
      line,
      column: 1,
      reason: "cut",
      action,
      why: placed(row, 1, `${row.unit} must end in a line end, got a cut one`),
    });
    return;
  }
  const goOn = !problem.fatal && (reading.repair || (problem.followsCut && reading.incomplete));
  if (goOn && reading.notes.length >= MOST_NOTES) {
    // a place is found by walking the line: not for what nobody will read
    count(reading, problem.reason);
    return;
  }
  const column = row.column(problem.path);
  const why = placed(row, column, problemText(problem, row.unit));
  if (!goOn) throw new RangeError(why);
  note(reading, { file, line, column, reason: problem.reason, action, why });
}

export function dropLine(reading: Reading, row: Row, problem: Problem): void {
  refuse(reading, row, problem);
  reading.lines.dropped++;
}

/** Runs a check; with `repair`, fields without which the entry would stand are removed from `raw` and noted. */
export function settle(reading: Reading, row: Row, raw: Raw, check: (raw: Raw) => Problem | undefined): Problem | undefined {
  for (;;) {
    const wrong = check(raw);
    if (!wrong?.clear || !reading.repair || row.mayBeCut) return wrong;
    refuse(reading, row, wrong, "cleared");
    for (const path of wrong.clear) {
      const holder = path.slice(0, -1).reduce<Raw>((inner, step) => inner[step] as Raw, raw);
      delete holder[path.at(-1)!];
    }
  }
}

export function placed({ file, line }: { readonly file: string; readonly line: number }, column: number, text: string): string {
  return `parseRecording: ${file}:${line}:${column}: ${text}`;
}

export function finishReport(reading: Reading, form: "jsonl" | "csv"): ReadReport {
  const { file, lines, samples, trackPoints, frames, replaced, sorted, notes, reasons, incomplete, unterminated, assumed, ignored } =
    reading;
  return {
    ...{ file, form, lines, samples, trackPoints, frames, replaced, sorted, notes, reasons, incomplete, unterminated },
    ...{ assumed: [...assumed], ignored: [...ignored] },
  };
}

function note(reading: Reading, entry: ReadNote): void {
  count(reading, entry.reason);
  if (reading.notes.length < MOST_NOTES) reading.notes.push(entry);
}

function count({ reasons }: Reading, reason: ReadReason): void {
  reasons[reason] = (reasons[reason] ?? 0) + 1;
}
