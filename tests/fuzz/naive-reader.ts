/* biome-ignore-all lint/suspicious/noExplicitAny: a reader that trusts looks into anything */
// A second reader of our file forms: short, slow and trusting. What the library reads without complaint must be what this one reads.
import type { CsvTables } from "../../src/trace/form/csv-tables.js";
import type { Session } from "../../src/trace/types.js";
import { LONGEST } from "./mutations.js";

/** A session with lists in place of columns. */
export function plain(session: Session): any {
  const lists = (value: any): any => {
    if (value instanceof Float64Array) return Array.from(value);
    if (Array.isArray(value)) return value.map(lists);
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, lists(entry)]));
  };
  return lists(session);
}

/** Lines with something on them, if only more spaces than are allowed, without their ends; the last one too when it has none. */
export function linesOf(text: string): string[] {
  return text
    .replace(/^\ufeff/, "")
    .split("\n")
    .map((line) => line.replace(/\r$/, ""))
    .filter((line) => !/^[ \t]*$/.test(line) || line.length > LONGEST);
}

/** `cut`: the last line is not whole. */
export function naiveJsonLines(text: string, cut = false): any {
  const lines = cut ? linesOf(text).slice(0, -1) : linesOf(text);
  const session: any = { recordings: [] };
  const byNumber = new Map<number, any>();
  let current = 0;
  for (const line of lines) {
    const entry = JSON.parse(line);
    const { kind, recording: number = kind === "recording" ? byNumber.size + 1 : current, type, ...rest } = entry;
    if (kind === "session") Object.assign(session, { person: rest.person, startedAt: rest.startedAt, equipment: rest.equipment });
    else if (kind === "recording") {
      current = number;
      const trace = { t: [], x: [], y: [] };
      byNumber.set(number, { schema: 1, space: rest.space, device: rest.device, trace, presses: [], targets: [], trials: [], marks: [] });
    } else addTo(byNumber.get(number), kind, type === undefined ? rest : { kind: type, ...rest });
  }
  session.recordings = [...byNumber].sort(([a], [b]) => a - b).map(([, recording]) => recording);
  return session;
}

function addTo(recording: any, kind: string, entry: any): void {
  const append = (to: any, fields: string[]): void => {
    for (const field of fields) to[field] = [...to[field], ...entry[field]];
  };
  const ended = entry.tUp ?? entry.tEnd;
  if (kind === "samples") append(recording.trace, ["t", "x", "y"]);
  else if (kind === "frames") recording.frames = [...(recording.frames ?? []), ...entry.t];
  else if (kind === "track") {
    const { at } = recording.targets.find(({ id }: any) => id === entry.target);
    append(at, Object.keys(at));
  } else if (kind === "press" || kind === "mark") {
    const list = recording[kind === "press" ? "presses" : "marks"];
    const same = ["t", "by", "code", "kind"];
    const before = list.findLastIndex(
      (other: any) => (other.tUp ?? other.tEnd) === undefined && same.every((key) => other[key] === entry[key]),
    );
    if (ended !== undefined && before >= 0) list[before] = entry;
    else list.push(entry);
  } else {
    const list = recording[`${kind}s`];
    const before = list.findIndex(({ id }: any) => id === entry.id);
    if (before >= 0) list[before] = entry;
    else list.push(entry);
  }
}

/** Rows of a table as objects; what is not there is left out. `cut`: the last row is not whole. */
function naiveRows(text: string | undefined, cut: boolean): Record<string, string>[] {
  const rows: (string | undefined)[][] = [[]];
  const field = /(?:"((?:[^"]|"")*)"|([^"\n,]*?))(,|\r?\n|\r?$)/gy;
  const body = (text ?? "").replace(/^\ufeff/, "");
  while (field.lastIndex < body.length) {
    const match = field.exec(body);
    if (!match && cut) {
      // what there is of the row is the row to leave out
      if (rows.at(-1)!.length === 0) rows.at(-1)!.push("cut");
      break;
    }
    if (!match) throw new Error("no field");
    rows.at(-1)!.push(match[1]?.replaceAll('""', '"') ?? (match[2] || undefined));
    if (match[3]!.endsWith("\n")) rows.push([]);
    // an empty field after the last comma
    else if (match[3] === "," && field.lastIndex === body.length) rows.at(-1)!.push(undefined);
  }
  const [header = [], ...records] = rows.filter((row) => row.length > 1 || !/^[ \t]*$/.test(row[0] ?? ""));
  const whole = cut ? records.slice(0, -1) : records;
  return whole.map((row) => Object.fromEntries(header.flatMap((name, i) => (row[i] === undefined ? [] : [[`${name}`.trim(), row[i]]]))));
}

export function naiveTables(tables: CsvTables, isCut: (table: string) => boolean): any {
  const rowsOf = (name: keyof CsvTables): any[] => naiveRows(tables[name], isCut(name));
  const session: any = { person: "unknown", startedAt: "1970-01-01T00:00:00Z", equipment: { id: "unknown" }, recordings: [] };
  for (const { key, value } of rowsOf("session")) {
    if (value === undefined || key === "schema") continue;
    const [first, second] = key.split(".");
    if (second === undefined) session[first] = value;
    else session.equipment[second] = second === "id" ? value : Number(value);
  }
  const byNumber = new Map<number, any>();
  const begin = (number: number, space: any, device: string, frames: boolean): any => {
    const trace = { t: [], x: [], y: [] };
    const made = { schema: 1, space, device, trace, presses: [], targets: [], trials: [], marks: [], ...(frames ? { frames: [] } : {}) };
    byNumber.set(number, made);
    return made;
  };
  for (const { recording, space, unit, device = "unknown", frames } of rowsOf("recordings")) {
    begin(Number(recording), { kind: space, unit }, device, frames !== undefined);
  }
  const recordingOf = (row: any): any => {
    const number = Number(row.recording ?? byNumber.keys().next().value ?? 1);
    return byNumber.get(number) ?? begin(number, { kind: "plane", unit: "px" }, "unknown", false);
  };
  for (const row of rowsOf("samples")) for (const key of ["t", "x", "y"]) recordingOf(row).trace[key].push(Number(row[key]));
  for (const row of rowsOf("targets")) {
    const { id, shape, role } = row;
    const sizes = numbers(row, ["diameter", "width", "height", "angle"]);
    const centre = numbers(row, ["x", "y"]);
    const at = Object.keys(centre).length > 0 ? centre : { t: [], x: [], y: [] };
    const entry = {
      id,
      ...numbers(row, ["tShown", "tGone"]),
      shape: { kind: shape, ...sizes },
      at,
      ...(role === undefined ? {} : { role }),
    };
    recordingOf(row).targets.push(entry);
  }
  for (const row of rowsOf("tracks")) {
    const { at } = recordingOf(row).targets.find(({ id }: any) => id === row.target);
    for (const [key, value] of Object.entries(numbers(row, ["t", "x", "y", "scale"]))) at[key] = [...(at[key] ?? []), value];
  }
  for (const row of rowsOf("trials")) {
    const { id, kind, block = "" } = row;
    recordingOf(row).trials.push({ id, kind, ...numbers(row, ["tStart", "tEnd"]), goals: [], block, condition: {} });
  }
  const trialOf = (row: any): any => recordingOf(row).trials.find(({ id }: any) => id === row.trial);
  for (const row of rowsOf("goals")) trialOf(row).goals.push(row.target);
  for (const row of rowsOf("conditions")) {
    const { name = "", value = "", type } = row;
    const isNumber = type === "number" || (type === undefined && /^[ \t]*[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?[ \t]*$/i.test(value));
    const entry = { value: isNumber ? Number(value) : value, enumerable: true, writable: true, configurable: true };
    Object.defineProperty(trialOf(row).condition, name, entry);
  }
  for (const row of rowsOf("presses")) {
    const { by, code, counted, credited } = row;
    const credit = credited ?? (counted === "miss" ? null : undefined);
    const texts = Object.entries({ by, code, credited: credit }).filter(([, value]) => value !== undefined);
    recordingOf(row).presses.push({ ...numbers(row, ["t", "tUp", "x", "y"]), ...Object.fromEntries(texts) });
  }
  for (const row of rowsOf("marks")) recordingOf(row).marks.push({ ...numbers(row, ["t", "tEnd"]), kind: row.kind });
  for (const row of rowsOf("frames")) {
    const recording = recordingOf(row);
    recording.frames = [...(recording.frames ?? []), Number(row.t)];
  }
  if (byNumber.size === 0) recordingOf({});
  session.recordings = [...byNumber].sort(([a], [b]) => a - b).map(([, recording]) => recording);
  return session;
}

function numbers(row: any, keys: string[]): any {
  return Object.fromEntries(keys.flatMap((key) => (row[key] === undefined ? [] : [[key, Number(row[key])]])));
}
