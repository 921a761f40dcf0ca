import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type FitMovementTimeOptions, fitMovementTime } from "../../src/fitts/fit-movement-time.js";
import type { CoefficientName } from "../../src/fitts/models/movement-time.js";
import { cellsBy } from "../fitts/movement-cells.js";
import { SHARED_ABSENT, sharedPath, within } from "../shared.js";

const read = (file: string) => {
  const path = sharedPath("reference", "fitts", file);
  return path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
};
const models = read("models.json");
const plausibility = read("plausibility.json");

function valueIn(fit: ReturnType<typeof fitMovementTime>, name: CoefficientName): number {
  const coefficient = fit.coefficients[name];
  return coefficient?.ok === true ? coefficient.value : Number.NaN;
}

describe.skipIf(models === undefined)(`laws of movement time${models === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  // Source: Schmidt et al. 1979 (abstract read; formula recalled): We = k A/MT, vectors computed. Three of the cases share one k and make a line.
  it("finds k of the linear law in its vectors, without an intercept", () => {
    const cases: { A: number; MT_s: number; k_s: number; We: number }[] = models.linearLaw.cases;
    const tolerance = { rel: 0, abs: models.linearLaw.tolerance_abs };
    for (const k of new Set(cases.map((one) => one.k_s))) {
      const own = cases
        .filter((one) => one.k_s === k)
        .map(({ A, MT_s, We }) => ({ amplitude: A, width: 10, movementTime: MT_s, effectiveWidth: We }));
      // a case alone makes no line: halved and doubled times of the same law join it
      const more = own.flatMap((cell) =>
        [0.5, 2].map((f) => ({ ...cell, movementTime: cell.movementTime * f, effectiveWidth: cell.effectiveWidth / f })),
      );
      const fit = fitMovementTime([...own, ...more], { model: "linear" });
      expect(within(valueIn(fit, "k"), k, tolerance)).toBe(true);
      expect(within(valueIn(fit, "a"), 0, tolerance)).toBe(true);
    }
  });

  // Source: Welford 1968, Shoemaker et al. 2012 (recalled): b1 = b2 reduces the two-part law to the one-part law, in both forms
  it.each(["fitts", "shannon"] as const)("has the one-part law in the two-part law of the %s form", (form) => {
    expect(models.twoPart.formula[form]).toMatch(/b1 log2.*b2 log2 W/);
    const added = form === "fitts" ? 0 : 1;
    const fit = fitMovementTime(
      cellsBy((a, w) => 0.2 + 0.1 * Math.log2(a / w + added)),
      { model: "twoPart", form },
    );
    expect(valueIn(fit, "a")).toBeCloseTo(0.2, 12);
    expect(valueIn(fit, "b1")).toBeCloseTo(0.1, 12);
    expect(valueIn(fit, "b2")).toBeCloseTo(0.1, 12);
  });

  // Source: Meyer et al. 1988 (summary read): MT = a + b sqrt(A/W); vectors computed
  it("finds the square-root law in its vectors", () => {
    const cases: { ratio: number; sqrt: number }[] = models.optimisedSubmovement.cases;
    const cells = cases.map(({ ratio, sqrt }) => ({ amplitude: 20 * ratio, width: 20, movementTime: 0.1 + 0.08 * sqrt }));
    const fit = fitMovementTime(cells, { model: "squareRoot" });
    expect(within(valueIn(fit, "a"), 0.1, { rel: 0, abs: models.optimisedSubmovement.tolerance_abs })).toBe(true);
    expect(within(valueIn(fit, "b"), 0.08, { rel: 0, abs: models.optimisedSubmovement.tolerance_abs })).toBe(true);
  });
});

describe.skipIf(plausibility === undefined)(`published device models${plausibility === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  // Source: MacKenzie, Sellen and Buxton 1991 (recalled), Shannon form: 1000/slope is the published index of performance, printed to one decimal.
  // Believable intercepts: Soukoreff and MacKenzie 2004 (recalled), -200 to 400 ms; of the six models the trackball dragging lies outside.
  const devices: { device: string; task: string; intercept_ms: number; slope_ms_per_bit: number; IP_bits_per_s: number }[] =
    plausibility?.models1991 ?? [];
  it.each(devices)("$device, $task", ({ intercept_ms, slope_ms_per_bit, IP_bits_per_s }) => {
    const fit = fitMovementTime(cellsBy((a, w) => (intercept_ms + slope_ms_per_bit * Math.log2(a / w + 1)) / 1000));
    expect(Math.abs(1 / valueIn(fit, "b") - IP_bits_per_s)).toBeLessThanOrEqual(0.05);
    const { low, high } = plausibility.intercept_credible_ms;
    expect(fit.warnings).toEqual(intercept_ms < low || intercept_ms > high ? ["intercept"] : []);
  });

  // Source: Card, English and Burr 1978 (recalled): 1.03 + 0.096 log2(D/S + 0.5), whose intercept is not that of a pointing movement alone
  it("doubts the intercept of the mouse of 1978", () => {
    const fit = fitMovementTime(
      cellsBy((a, w) => 1.03 + 0.096 * Math.log2(a / w + 0.5)),
      { form: "welford" },
    );
    expect(within(1 / valueIn(fit, "b"), plausibility.cardEnglishBurr1978.inverse_slope_mouse, { rel: 1e-8, abs: 0 })).toBe(true);
    expect(fit.warnings).toEqual(["intercept"]);
  });

  // Source: the same bounds, from just inside and just outside
  it.each<[number, FitMovementTimeOptions, string[]]>([
    [-199, {}, []],
    [-201, {}, ["intercept"]],
    [399, { form: "fitts" }, []],
    [401, { form: "fitts" }, ["intercept"]],
  ])("an intercept of %d ms with %j warns %j", (intercept, options, expected) => {
    const added = options.form === "fitts" ? 0 : 1;
    const scale = options.form === "fitts" ? 2 : 1;
    const fit = fitMovementTime(
      cellsBy((a, w) => intercept / 1000 + 0.3 * Math.log2((scale * a) / w + added)),
      options,
    );
    expect(fit.warnings).toEqual(expected);
  });
});
