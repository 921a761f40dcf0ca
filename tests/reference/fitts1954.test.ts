import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { fitMovementTime } from "../../src/fitts/fit-movement-time.js";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";
import type { CoefficientName, MovementTimeCell, MovementTimeForm } from "../../src/fitts/models/movement-time.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { SHARED_ABSENT, sharedPath, within } from "../shared.js";

// Source: Fitts 1954, J. Exp. Psychol. 47, 381-391. The 1-oz stylus table as reprinted in MacKenzie 1991, thesis chapter 2 (read); the 1-lb table recalled,
// and true to itself; regressions computed from the cells by NumPy 2.4.6 and SciPy 1.17.1, the published ones recalled from MacKenzie 1989 and 1992.
const path = sharedPath("reference", "fitts", "fitts1954.json");
const table = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
const FORMS: readonly MovementTimeForm[] = ["fitts", "welford", "shannon"];

interface Regression {
  readonly intercept_ms: number;
  readonly slope_ms_per_bit: number;
  readonly r: number;
  readonly r2: number;
  readonly se_of_estimate_ms: number;
  readonly inverse_slope_bits_per_s: number;
  readonly n: number;
}

const cellsOf = (task: { MT: number[]; We_from_errors_published?: number[]; A?: number[]; W?: number[] }): MovementTimeCell[] =>
  task.MT.map((time, i) => ({
    amplitude: (task.A ?? table.A)[i],
    width: (task.W ?? table.W)[i],
    movementTime: time / 1000,
    effectiveWidth: task.We_from_errors_published?.[i] ?? null,
  }));

function milliseconds(fit: ReturnType<typeof fitMovementTime>, name: CoefficientName): number {
  const coefficient = fit.coefficients[name];
  return coefficient?.ok === true ? 1000 * coefficient.value : Number.NaN;
}

function expectRegression(
  cells: readonly MovementTimeCell[],
  form: MovementTimeForm,
  width: "nominal" | "effective",
  expected: Regression,
  rel: number,
): void {
  const fit = fitMovementTime(cells, { form, width });
  const tolerance = { rel, abs: 0 };
  const slope = milliseconds(fit, "b");
  expect(within(milliseconds(fit, "a"), expected.intercept_ms, tolerance), `intercept ${milliseconds(fit, "a")}`).toBe(true);
  expect(within(slope, expected.slope_ms_per_bit, tolerance), `slope ${slope}`).toBe(true);
  expect(within(1000 / slope, expected.inverse_slope_bits_per_s, tolerance), `inverse slope ${1000 / slope}`).toBe(true);
  expect(within(fit.quality!.r, expected.r, tolerance), `r ${fit.quality!.r}`).toBe(true);
  expect(within(fit.quality!.r2, expected.r2, tolerance), `r2 ${fit.quality!.r2}`).toBe(true);
  expect(within(1000 * fit.quality!.residualSd, expected.se_of_estimate_ms, tolerance), `residual SD ${fit.quality!.residualSd}`).toBe(
    true,
  );
  expect(fit.n).toBe(expected.n);
}

describe.skipIf(table === undefined)(`Fitts 1954${table === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it("has its indices of difficulty in three forms", () => {
    for (const form of FORMS) {
      for (const [i, expected] of table[`ID_${form}`].entries()) {
        expect(within(indexOfDifficulty(table.A[i], table.W[i], { form }), expected, { rel: 1e-8, abs: 0 })).toBe(true);
      }
    }
  });

  describe.each(["stylus1oz", "stylus1lb"])("%s", (name) => {
    const task = table?.[name];
    const computed = task?.computed;
    const rel: number = task?.tolerance.computed_relative;
    const close = (got: number, expected: number): boolean => within(got, expected, { rel, abs: 0 });

    it("has its index of performance, ID/MT, as printed and as computed", () => {
      const performance = task.MT.map(
        (time: number, i: number) => (1000 * indexOfDifficulty(table.A[i], table.W[i], { form: "fitts" })) / time,
      );
      // the printed column has two decimals; the recalled 1-lb times are off by up to 0.0057 bit/s, as the table says
      const printed = name === "stylus1oz" ? 0.005 : 0.0058;
      for (const [i, value] of performance.entries()) {
        expect(Math.abs(value - task.IP_published[i])).toBeLessThanOrEqual(printed);
        if (computed.IP !== undefined) expect(close(value, computed.IP[i])).toBe(true);
      }
      const { mean, sd } = meanAndSd(performance);
      expect(close(mean, computed.mean_IP) && close(sd, computed.sd_IP)).toBe(true);
    });

    it("has its means", () => {
      const times = meanAndSd(task.MT);
      const errors = meanAndSd(task.errors);
      expect(close(times.mean, computed.mean_MT) && close(errors.mean, computed.mean_errors)).toBe(true);
      if (computed.sd_MT === undefined) return;
      expect(close(times.sd, computed.sd_MT) && close(errors.sd, computed.sd_errors)).toBe(true);
    });

    it.each(FORMS)("has its regression with nominal widths in the %s form", (form) => {
      expectRegression(cellsOf(task), form, "nominal", computed.regressions_nominal_W[form], rel);
    });

    it("has its two-part fit, and the ratio of the two slopes", () => {
      const fit = fitMovementTime(cellsOf(task), { model: "twoPart", form: "fitts" });
      const expected = computed.two_part_fit;
      expect(close(milliseconds(fit, "a"), expected.a_ms)).toBe(true);
      expect(close(milliseconds(fit, "b1"), expected.b1_amplitude_ms)).toBe(true);
      expect(close(milliseconds(fit, "b2"), expected.b2_width_ms)).toBe(true);
      expect(close(milliseconds(fit, "b2") / milliseconds(fit, "b1"), expected.k)).toBe(true);
      expect(close(fit.quality!.r2, expected.r2)).toBe(true);
    });

    it("has its square-root fit", () => {
      const fit = fitMovementTime(cellsOf(task), { model: "squareRoot" });
      const expected = computed.sqrt_ratio_fit;
      expect(close(milliseconds(fit, "a"), expected.a_ms)).toBe(true);
      expect(close(milliseconds(fit, "b"), expected.b_ms)).toBe(true);
      expect(close(fit.quality!.r, expected.r)).toBe(true);
      expect(close(fit.quality!.r2, expected.r2)).toBe(true);
    });
  });

  describe("stylus1oz", () => {
    const task = table?.stylus1oz;

    it("has the printed means and standard deviations", () => {
      const performance = task.MT.map((time: number, i: number) => (1000 * table.ID_fitts[i]) / time);
      const { published_means: means, published_sds: sds } = task;
      // half a unit of the last digit printed: whole ms, hundredths of a percent and of a bit/s (10.10)
      const columns: [number[], number, number, number][] = [
        [task.MT, means.MT, sds.MT, 0.5],
        [task.errors, means.errors, sds.errors, 0.005],
        [performance, means.IP, sds.IP, 0.005],
      ];
      for (const [list, mean, sd, half] of columns) {
        const found = meanAndSd(list);
        expect(Math.abs(found.mean - mean)).toBeLessThanOrEqual(half);
        expect(Math.abs(found.sd - sd)).toBeLessThanOrEqual(half);
      }
    });

    it.each(FORMS)("has its regression with the published effective widths in the %s form", (form) => {
      expectRegression(cellsOf(task), form, "effective", task.computed.regressions_published_We[form], task.tolerance.computed_relative);
    });

    const published: { form: MovementTimeForm; width: string; r: number; intercept_ms?: number; slope_ms_per_bit?: number }[] =
      task?.published_regressions ?? [];
    it.each(published)("has the published $width regression in the $form form", (expected) => {
      const fit = fitMovementTime(cellsOf(task), { form: expected.form, width: expected.width === "We" ? "effective" : "nominal" });
      expect(Math.abs(fit.quality!.r - expected.r)).toBeLessThanOrEqual(task.tolerance.published_r);
      if (expected.intercept_ms === undefined || expected.slope_ms_per_bit === undefined) return;
      expect(Math.abs(milliseconds(fit, "a") - expected.intercept_ms)).toBeLessThanOrEqual(task.tolerance.published_intercept_ms);
      expect(Math.abs(milliseconds(fit, "b") - expected.slope_ms_per_bit)).toBeLessThanOrEqual(task.tolerance.published_slope);
    });

    it("has its power fit", () => {
      const fit = fitMovementTime(cellsOf(task), { model: "power" });
      const expected = task.computed.power_fit_log_domain;
      const tolerance = { rel: task.tolerance.computed_relative, abs: 0 };
      expect(within(milliseconds(fit, "c"), expected.coefficient_ms, tolerance)).toBe(true);
      expect(within(milliseconds(fit, "p") / 1000, expected.exponent_A, tolerance)).toBe(true);
      expect(within(milliseconds(fit, "q") / 1000, expected.exponent_W, tolerance)).toBe(true);
    });
  });

  it("has the recalled r of the 1-lb stylus", () => {
    const [expected] = table.stylus1lb.published_regressions;
    expect(fitMovementTime(cellsOf(table.stylus1lb), { form: expected.form }).quality!.r).toBeCloseTo(expected.r, 4);
  });

  // unverified: the table's own note says that a cell or the published r is misremembered, so this is arithmetic on made-up-like figures, not Fitts' data
  it.each(FORMS)("repeats the arithmetic of the unverified disc table in the %s form", (form) => {
    expect(table.discTransfer.verified).toBe(false);
    expectRegression(cellsOf(table.discTransfer), form, "nominal", table.discTransfer.computed.regressions_nominal_W[form], 1e-8);
  });
});
