// Source: shared reference table fitts/index-of-difficulty.json: the three logarithmic forms (Fitts 1954; Welford 1960, 1968; MacKenzie 1989, opening
// read), computed with NumPy 2.4.6; effective widths from error rates by the rule of Soukoreff and MacKenzie 2004 (recalled), computed with SciPy
// 1.17.1. Shared reference table fitts/fitts1954.json: difficulties, and effective widths as printed (1-oz table, read).
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { effectiveWidthFromErrorRate } from "../../src/fitts/effective-width-from-error-rate.js";
import { type IndexOfDifficultyOptions, indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

interface DifficultyTable {
  readonly cases: readonly { A: number; W: number; fitts: number | null; welford: number; shannon: number }[];
  readonly tolerance_abs: number;
  readonly constants: { readonly rounded_half: number };
  readonly effective_width_from_error_rate: { readonly cases: readonly { err: number; factor: number }[]; readonly tolerance_abs: number };
}
interface TappingTable {
  readonly W: readonly number[];
  readonly A: readonly number[];
  readonly ID_fitts: readonly number[];
  readonly ID_welford: readonly number[];
  readonly ID_shannon: readonly number[];
  readonly stylus1oz: {
    readonly errors: readonly number[];
    readonly We_from_errors_published: readonly number[];
    readonly tolerance: { readonly computed_relative: number };
  };
}

const read = <T>(file: string): T | undefined => {
  const path = sharedPath("reference", "fitts", file);
  return path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
};
const table = read<DifficultyTable>("index-of-difficulty.json");
const tapping = read<TappingTable>("fitts1954.json");
const FORMS = ["fitts", "welford", "shannon"] as const satisfies readonly IndexOfDifficultyOptions["form"][];

describe.skipIf(!table)(`the index of difficulty against its table (skipped: ${SHARED_ABSENT})`, () => {
  it("has the thirteen cases", () => expect(table!.cases.length).toBe(13));

  it.each(table?.cases ?? [])("A = $A, W = $W", (c) => {
    for (const form of FORMS) {
      const expected = c[form];
      const index = () => indexOfDifficulty(c.A, c.W, { form });
      if (expected === null) expect(index).toThrow(/amplitude must be above 0/);
      else expect(Math.abs(index() - expected), form).toBeLessThanOrEqual(table!.tolerance_abs);
    }
  });

  it.each(table?.effective_width_from_error_rate.cases ?? [])("effective width at an error rate of $err", ({ err, factor }) => {
    const { value, floored } = effectiveWidthFromErrorRate(1, err);
    expect(Math.abs(value - factor)).toBeLessThanOrEqual(table!.effective_width_from_error_rate.tolerance_abs);
    expect(floored).toBe(err === 0);
  });
});

describe.skipIf(!tapping)(`Fitts' tapping table of 1954 (skipped: ${SHARED_ABSENT})`, () => {
  const rows = (tapping?.W ?? []).map((W, i) => ({ W, A: tapping!.A[i]!, i }));

  it.each(rows)("difficulty at A = $A, W = $W", ({ W, A, i }) => {
    for (const form of FORMS) {
      const expected = tapping![`ID_${form}`][i]!;
      const allowed = tapping!.stylus1oz.tolerance.computed_relative * Math.abs(expected);
      expect(Math.abs(indexOfDifficulty(A, W, { form }) - expected), form).toBeLessThanOrEqual(allowed);
    }
  });

  it("gives the printed effective widths from the printed errors, to 0.0024 inch as the table states", () => {
    const { errors, We_from_errors_published: printed } = tapping!.stylus1oz;
    expect(printed.length).toBe(16);
    const apart = rows.map(({ W, i }) => Math.abs(effectiveWidthFromErrorRate(W, errors[i]! / 100).value - printed[i]!));
    expect(Math.max(...apart)).toBeLessThanOrEqual(0.0024);
  });
});
