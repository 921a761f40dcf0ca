import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { median } from "simple-statistics";
import { formatRecording } from "../../src/trace/format-recording.js";
import { convertOfficeRemote, officeRemoteNames } from "../../tests/data/convert-office-remote.js";
import type { Outcome } from "../../tests/validation/figure.js";
import { watchCommand } from "./watch-command.js";

const NAME = "scale/office-remote, command over Python";
const RUNS = 5;

/** Twenty long recordings of free use as tables, from a cold start to a table, beside Python on the same tables. Runs take turns. */
export async function officeFigures(): Promise<Outcome[]> {
  const names = officeRemoteNames();
  if (names.length === 0) return [{ name: NAME, skipped: "the recordings of office-remote are absent" }];
  const home = mkdtempSync(join(tmpdir(), "office-"));
  try {
    for (const [i, name] of names.entries()) writeTables(join(home, "tables", name), name, i);
    const ours: number[] = [];
    const theirs: number[] = [];
    let told = "";
    for (let i = 0; i < RUNS; i++) {
      ours.push((await watchCommand([join(home, "tables"), "--form", "csv", "--quiet"], async () => {})).seconds);
      const begun = performance.now();
      told = runPython(join(home, "tables"), join(home, "out.csv"));
      theirs.push((performance.now() - begun) / 1000);
    }
    const [own, other] = [median(ours), median(theirs)];
    const source = `${told.trim()}; command ${own.toFixed(2)} s, Python ${other.toFixed(2)} s, medians of ${RUNS}, start included`;
    return [{ name: NAME, value: own / other, bar: "printed", ok: true, source }];
  } catch (reason) {
    if (!/ENOENT|No module/.test(String(reason))) throw reason;
    return [{ name: NAME, skipped: `needs Python with SciPy (the variable PYTHON can name it): ${String(reason).slice(0, 80)}` }];
  } finally {
    rmSync(home, { recursive: true });
  }
}

function writeTables(folder: string, name: string, day: number): void {
  const startedAt = new Date(Date.UTC(2026, 0, 1 + day)).toISOString();
  const session = { person: name, startedAt, equipment: { id: "desk" }, recordings: [convertOfficeRemote(name)] };
  mkdirSync(folder, { recursive: true });
  for (const [table, text] of Object.entries(formatRecording(session, { form: "csv" }))) writeFileSync(join(folder, `${table}.csv`), text);
}

function runPython(tables: string, out: string): string {
  const script = join(dirname(fileURLToPath(import.meta.url)), "office-remote.py");
  return execFileSync(process.env.PYTHON ?? "python3", [script, tables, out], { encoding: "utf8" });
}
