// What the benchmark modules share that run a Python program on the same numbers in the same run.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Outcome } from "../tests/validation/figure.js";

/**
 * Writes the columns one after another into a file and lets `measure` call the script of this folder on it, with the file's path before its arguments; the
 * call gives what the script printed. Where Python or SciPy is absent all of `names` are skipped.
 */
export function besidePython(
  script: string,
  columns: readonly Float64Array[],
  names: readonly string[],
  measure: (call: (...values: readonly (string | number)[]) => string) => Outcome[],
): Outcome[] {
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  const path = join(folder, "columns");
  const file = resolve("benchmarks", script);
  try {
    writeFileSync(path, Buffer.concat(columns.map((column) => Buffer.from(column.buffer))));
    return measure((...values) => execFileSync(process.env.PYTHON ?? "python3", [file, path, ...values.map(String)], { encoding: "utf8" }));
  } catch (reason) {
    if (!/ENOENT|No module/.test(String(reason))) throw reason;
    return names.map((name) => ({
      name,
      skipped: `needs Python with SciPy (the variable PYTHON can name it): ${String(reason).slice(0, 80)}`,
    }));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Our time over that of a Python program's, seconds each, as a figure that is printed; `what` says which of its routines ran. */
export function timeRatio(name: string, ours: number, theirs: number, version: string, what: string): Outcome {
  const ms = (seconds: number): string => (1000 * seconds).toPrecision(3);
  return {
    name,
    value: ours / theirs,
    bar: "printed",
    ok: true,
    source: `${version}: ${what}; ${ms(ours)} against ${ms(theirs)} ms, medians`,
  };
}
