/**
 * A session as tables of comma-separated text, each with a header row. To read, `samples` alone is enough; what is not stated is filled with
 * placeholders that the report names. Each table is a file of its own name, `samples.csv` and so on.
 */
export interface CsvTables {
  readonly samples: string;
  /** Person, start and equipment, as `key,value`. */
  readonly session?: string;
  readonly recordings?: string;
  readonly presses?: string;
  readonly targets?: string;
  /** Samples of moving targets. */
  readonly tracks?: string;
  readonly trials?: string;
  /** Targets of each trial, in their order. */
  readonly goals?: string;
  /** Conditions of each trial. */
  readonly conditions?: string;
  readonly marks?: string;
  readonly frames?: string;
}

export type TableName = keyof CsvTables;

export interface TableForm {
  /** As written. Read in any order. */
  readonly columns: readonly string[];
  /** Without these a table cannot be read. */
  readonly needed: readonly string[];
}

export const TABLES: Readonly<Record<TableName, TableForm>> = {
  session: { columns: ["key", "value"], needed: ["key", "value"] },
  recordings: { columns: ["recording", "space", "unit", "device", "frames"], needed: ["recording", "space", "unit"] },
  samples: { columns: ["recording", "t", "x", "y"], needed: ["t", "x", "y"] },
  targets: {
    columns: ["recording", "id", "tShown", "tGone", "shape", "diameter", "width", "height", "angle", "x", "y", "role"],
    needed: ["id", "tShown", "shape"],
  },
  tracks: { columns: ["recording", "target", "t", "x", "y", "scale"], needed: ["target", "t", "x", "y"] },
  trials: { columns: ["recording", "id", "kind", "tStart", "tEnd", "block"], needed: ["id", "kind", "tStart"] },
  goals: { columns: ["recording", "trial", "target"], needed: ["trial", "target"] },
  conditions: { columns: ["recording", "trial", "name", "type", "value"], needed: ["trial", "name", "value"] },
  presses: { columns: ["recording", "t", "tUp", "by", "code", "x", "y", "counted", "credited"], needed: ["t", "by"] },
  marks: { columns: ["recording", "t", "tEnd", "kind"], needed: ["t", "kind"] },
  frames: { columns: ["recording", "t"], needed: ["t"] },
};
