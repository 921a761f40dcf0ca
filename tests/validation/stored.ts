// The figures of one run, kept in docs/figures, from which the pages of the site are made; and how to tell that they have aged.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import type { Figure, Skipped } from "./figure.js";

/** When and on what the figures were measured. */
export interface Measured {
  /** Day of the run, `2026-11-26`. */
  readonly date: string;
  /** Version of the package. */
  readonly version: string;
  /** Whether the run was the smaller one, with fewer repetitions. */
  readonly quick: boolean;
  /** Cores, system and Node version. */
  readonly machine: string;
  readonly seconds: number;
}

export interface StoredRun {
  readonly measured: Measured;
  readonly figures: readonly Figure[];
  readonly skipped: readonly Skipped[];
}

const FOLDER = join("docs", "figures");

/** The stored run of a command, or `undefined` where none was stored yet. */
export function readStored(title: string): StoredRun | undefined {
  const file = fileOf(title);
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as StoredRun) : undefined;
}

/** Stores a run and gives the name of its file. */
export function writeStored(
  title: string,
  { quick, seconds, figures, skipped }: { quick: boolean; seconds: number } & Omit<StoredRun, "measured">,
): string {
  const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
  const machine = `${availableParallelism()} cores, ${process.platform} ${process.arch}, Node ${process.versions.node}`;
  const measured: Measured = { date: new Date().toISOString().slice(0, 10), version, quick, machine, seconds: Math.round(seconds) };
  // five digits say all that a bar needs, and one figure a line is a change that can be read
  const lines = (outcomes: readonly object[]) =>
    outcomes.map((outcome) => JSON.stringify(outcome, (_, value) => (typeof value === "number" ? rounded(value) : value))).join(",\n");
  const file = fileOf(title);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `{"measured":${JSON.stringify(measured)},\n"figures":[\n${lines(figures)}\n],\n"skipped":[\n${lines(skipped)}\n]}\n`);
  return file;
}

/** What the stored run has too much or too little beside today's, in words; empty when the names agree. */
export function ageOfStored(title: string, today: Omit<StoredRun, "measured">, quick: boolean, command: string): string[] {
  const stored = readStored(title);
  if (stored === undefined) return [`${fileOf(title)} is missing: write it with \`${command}\``];
  const [then, now] = [keysOf(stored), keysOf({ ...today, skipped: [] })];
  // a quick run measures some of the figures, and absent data leave some out
  const lacking = stored.measured.quick && !quick ? [] : [...now].filter((key) => !then.has(key));
  const gone = (quick && !stored.measured.quick) || today.skipped.length > 0 ? [] : [...then].filter((key) => !now.has(key));
  return [
    ...(lacking.length > 0 ? [`${fileOf(title)} lacks ${list(lacking)}: write it anew with \`${command}\``] : []),
    ...(gone.length > 0 ? [`${fileOf(title)} still has ${list(gone)}: write it anew with \`${command}\``] : []),
  ];
}

/** Names without the number of cases, which stands in some and differs between a quick and a full run. */
function keysOf({ figures, skipped }: Omit<StoredRun, "measured">): Set<string> {
  return new Set([...figures, ...skipped].map(({ name }) => name.replace(/ \(n \d+\)/, "")));
}

export function rounded(value: number): number {
  return Number.isInteger(value) ? value : Number(value.toPrecision(5));
}

function fileOf(title: string): string {
  return join(FOLDER, `${title}.json`);
}

function list(names: readonly string[]): string {
  return `${names.length} ${names.length === 1 ? "figure" : "figures"} ("${names.slice(0, 3).join('", "')}"${names.length > 3 ? ", …" : ""})`;
}
