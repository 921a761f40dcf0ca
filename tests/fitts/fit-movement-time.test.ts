import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type FitMovementTimeOptions, fitMovementTime, type MovementTimeFit } from "../../src/fitts/fit-movement-time.js";
import type { CoefficientName, MovementTimeCell } from "../../src/fitts/models/movement-time.js";
import { throughput } from "../../src/fitts/throughput.js";
import { linearRegression } from "../../src/math/linear-regression.js";
import { createRandom } from "../../src/math/random.js";
import { band, near } from "../math/estimate-properties.js";
import { cellsBy, noisyCells } from "./movement-cells.js";

const LAWS: readonly FitMovementTimeOptions[] = [
  { model: "fitts" },
  { model: "fitts", form: "fitts" },
  { model: "fitts", form: "welford" },
  { model: "twoPart", form: "fitts" },
  { model: "twoPart", form: "welford" },
  { model: "twoPart", form: "shannon" },
  { model: "squareRoot" },
  { model: "linear" },
  { model: "power" },
];

// Fitts (1954), Table 1, stylus of 1 oz: 16 conditions, inch and ms; columns as typed in the reprint of MacKenzie (1991), chapter 2
const A = [2, 4, 8, 16];
const W = [0.25, 0.5, 1, 2];
const TIMES = [392, 484, 580, 731, 281, 372, 469, 595, 212, 260, 357, 481, 180, 203, 279, 388];
const WIDTHS = [0.243, 0.244, 0.235, 0.247, 0.444, 0.468, 0.446, 0.468, 0.725, 0.812, 0.914, 0.832, 1.02, 1.233, 1.576, 1.519];
const stylus: readonly MovementTimeCell[] = cellsBy(() => 1, A, W).map((cell, i) => ({
  ...cell,
  movementTime: TIMES[i]! / 1000,
  effectiveWidth: WIDTHS[i]!,
}));

function valueIn(fit: MovementTimeFit, name: CoefficientName): number {
  const coefficient = fit.coefficients[name];
  if (coefficient?.ok !== true) throw new Error(`no ${name}`);
  return coefficient.value;
}

/** Value, standard error and interval of a coefficient in one list. */
function figuresOf(fit: MovementTimeFit, name: CoefficientName): number[] {
  const coefficient = fit.coefficients[name];
  if (coefficient?.ok !== true) throw new Error(`no ${name}`);
  return [coefficient.value, coefficient.standardError!, ...coefficient.interval!];
}

const alike = (a: number, b: number, share = 1e-9): boolean => Math.abs(a - b) <= share * Math.max(1, Math.abs(a), Math.abs(b));
const allAlike = (a: readonly number[], b: readonly number[], share?: number): boolean =>
  a.length === b.length && a.every((v, i) => alike(v, b[i]!, share));

describe("fitMovementTime against outside values", () => {
  // Source: MacKenzie 1992, HCI 7, 91-139 (recalled; 1-oz stylus of Fitts 1954): 12.8 + 94.7 ID, r .9831; with effective widths -73.2 + 108.9 ID,
  // r .9907, and -31.4 + 122.0 ID, r .9938 by the Shannon form. MacKenzie 1989 (recalled): r .9900 and .9936 by the Welford and Shannon forms.
  it.each([
    ["fitts", "nominal", 0.0128, 0.0947, 0.9831],
    ["fitts", "effective", -0.0732, 0.1089, 0.9907],
    ["shannon", "effective", -0.0314, 0.122, 0.9938],
    ["welford", "nominal", undefined, undefined, 0.99],
    ["shannon", "nominal", undefined, undefined, 0.9936],
  ] as const)("has the published regression of Fitts' stylus in the %s form with %s widths", (form, width, a, b, r) => {
    const fit = fitMovementTime(stylus, { form, width });
    if (a !== undefined) expect(Math.abs(valueIn(fit, "a") - a)).toBeLessThan(0.0001);
    if (b !== undefined) expect(Math.abs(valueIn(fit, "b") - b)).toBeLessThan(0.0001);
    expect(Math.abs(fit.quality!.r - r)).toBeLessThan(0.0002);
  });

  // Source: statsmodels 0.15.0 OLS on NumPy 2.4.6, computed, on the same table; its criteria do not count the residual variance, these do
  it.each([
    [{ model: "fitts" }, "a", [0.027689100948, 0.011934779805, 0.0020915440980814083, 0.05328665779776928]],
    [{ model: "fitts" }, "b", [0.111536521687, 0.003378413632, 0.1042905451034971, 0.11878249826986804]],
    [{ model: "twoPart", form: "fitts" }, "a", [0.109025, 0.01926081739, 0.06741453381236803, 0.15063546618763216]],
    [{ model: "twoPart", form: "fitts" }, "b1", [0.0939, 0.006918689849, 0.07895307930579082, 0.10884692069420907]],
    [{ model: "twoPart", form: "fitts" }, "b2", [0.09545, 0.006918689849, 0.0805030793057909, 0.11039692069420912]],
    [{ model: "squareRoot" }, "a", [0.121342746161, 0.014407664011, 0.09044138018592897, 0.15224411213551886]],
    [{ model: "squareRoot" }, "b", [0.082402945443, 0.003842043736, 0.07416258118339336, 0.09064330970328399]],
    [{ model: "linear" }, "a", [0.257675501329, 0.021485691158, 0.2115932769529816, 0.30375772570486315]],
    [{ model: "linear" }, "k", [0.008735884001, 0.00096663893, 0.00666264969240756, 0.010809118310127387]],
    [{ model: "power" }, "p", [0.358140949861, 0.016575770831, 0.3223311740997562, 0.3939507256212472]],
    [{ model: "power" }, "q", [-0.366544332153, 0.016575770831, -0.40235410791391724, -0.3307345563924262]],
  ] as const)("%j has the coefficient %s of statsmodels, with error and interval", (options, name, expected) => {
    expect(allAlike(figuresOf(fitMovementTime(stylus, options), name), expected, 2e-12)).toBe(true);
  });

  // Source: the same; the factor c is exp of the intercept on logarithms, its error that of the logarithm times c (closed form)
  it("gives the factor of the power law in seconds", () => {
    const [value, error, low, high] = figuresOf(fitMovementTime(stylus, { model: "power" }), "c");
    expect(value).toBeCloseTo(Math.exp(-1.763122593499), 11);
    expect(error! / value!).toBeCloseTo(0.031985271837, 11);
    expect(low).toBeCloseTo(Math.exp(-1.8322225722437036), 12);
    expect(high).toBeCloseTo(Math.exp(-1.6940226147538942), 12);
  });

  // Source: statsmodels 0.15.0: rsquared, rsquared_adj, root of mse_resid; llf with K coefficients and the variance; for the power law llf less the sum of
  // log times. Leave-one-out: NumPy 2.4.6 lstsq, each condition left out and fitted anew.
  it.each([
    [
      { model: "fitts" },
      0.9873183232004621,
      0.9864124891433522,
      0.018332159134264066,
      -78.70161903354993,
      -76.70161903354993,
      -76.3838528668306,
      0.021613905110914863,
    ],
    [
      { model: "twoPart", form: "fitts" },
      0.966453865726515,
      0.9612929219921328,
      0.03094132163653299,
      -61.1374037702745,
      -57.50104013391087,
      -58.047048881315376,
      0.03678032527689512,
    ],
    [
      { model: "squareRoot" },
      0.9704643350458463,
      0.9683546446919782,
      0.027976839707988616,
      -65.17457367938178,
      -63.17457367938178,
      -62.856807512662435,
      0.034939315920642464,
    ],
    [{ model: "power" }, undefined, undefined, undefined, -77.4021825769421, -73.76581894057846, -74.31182768798297, 0.023424674696494643],
  ] as const)("%j has the quality of statsmodels", (options, r2, adjustedR2, residualSd, aic, aicc, bic, leaveOneOutError) => {
    const quality = fitMovementTime(stylus, options).quality!;
    if (r2 !== undefined) {
      expect(quality.r2).toBeCloseTo(r2, 12);
      expect(quality.adjustedR2).toBeCloseTo(adjustedR2, 12);
      expect(quality.residualSd).toBeCloseTo(residualSd, 13);
    }
    expect(quality.aic).toBeCloseTo(aic, 9);
    expect(quality.aicc).toBeCloseTo(aicc, 9);
    expect(quality.bic).toBeCloseTo(bic, 9);
    expect(quality.leaveOneOutError).toBeCloseTo(leaveOneOutError, 13);
  });

  // Source: statsmodels 0.15.0 get_prediction: mean_ci and obs_ci at the ends of the measured range and at log2(9)
  it("draws the band of statsmodels, and foretells within it", () => {
    const fit = fitMovementTime(stylus, { predict: [{ amplitude: 8, width: 1 }] });
    expect(fit.range).toEqual({ low: 1, high: expect.closeTo(6.022367813028454, 13), unit: "bit" });
    expect(fit.band).toHaveLength(21);
    expect(fit.band[0]).toEqual({
      predictor: 1,
      value: expect.closeTo(0.139225622635, 11),
      confidence: [expect.closeTo(0.120114844609, 11), expect.closeTo(0.15833640066, 11)],
      prediction: [expect.closeTo(0.095508671092, 11), expect.closeTo(0.182942574177, 11)],
    });
    expect(fit.band.at(-1)).toMatchObject({
      value: expect.closeTo(0.699403059131, 11),
      prediction: [expect.closeTo(0.654206936489, 11), expect.closeTo(0.744599181773, 11)],
    });
    expect(fit.predictions).toEqual([
      {
        ok: true,
        value: expect.closeTo(0.381251509616, 11),
        unit: "s",
        n: 16,
        interval: [expect.closeTo(0.340717386057, 11), expect.closeTo(0.421785633176, 11)],
        level: 0.95,
      },
    ]);
  });

  // Source: statsmodels 0.15.0, p of the square of the centred fitted values as one more column: .0024, 1.2e-5, 2.3e-5, 1.2e-4, and .34 for the power law
  it.each([
    [{ model: "fitts" }, true],
    [{ model: "twoPart", form: "fitts" }, true],
    [{ model: "squareRoot" }, true],
    [{ model: "linear" }, true],
    [{ model: "power" }, false],
  ] as const)("%j bends as statsmodels tells: %s", (options, bends) => {
    expect(fitMovementTime(stylus, options).warnings.includes("curved")).toBe(bends);
  });

  // Source: closed form, each law without noise
  it.each<[FitMovementTimeOptions, (a: number, w: number) => number, Partial<Record<CoefficientName, number>>]>([
    [{ model: "fitts", form: "shannon" }, (a, w) => 0.1 + 0.12 * Math.log2(a / w + 1), { a: 0.1, b: 0.12 }],
    [{ model: "fitts", form: "fitts" }, (a, w) => 0.1 + 0.12 * Math.log2((2 * a) / w), { a: 0.1, b: 0.12 }],
    [{ model: "fitts", form: "welford" }, (a, w) => 0.1 + 0.12 * Math.log2(a / w + 0.5), { a: 0.1, b: 0.12 }],
    [{ model: "twoPart", form: "fitts" }, (a, w) => 0.3 + 0.11 * Math.log2(a) - 0.06 * Math.log2(w), { a: 0.3, b1: 0.11, b2: 0.06 }],
    [
      { model: "twoPart", form: "welford" },
      (a, w) => 0.3 + 0.11 * Math.log2(a + w / 2) - 0.06 * Math.log2(w),
      { a: 0.3, b1: 0.11, b2: 0.06 },
    ],
    [{ model: "twoPart", form: "shannon" }, (a, w) => 0.3 + 0.11 * Math.log2(a + w) - 0.06 * Math.log2(w), { a: 0.3, b1: 0.11, b2: 0.06 }],
    [{ model: "squareRoot" }, (a, w) => 0.2 + 0.09 * Math.sqrt(a / w), { a: 0.2, b: 0.09 }],
    [{ model: "power" }, (a, w) => 0.17 * a ** 0.4 * w ** -0.3, { c: 0.17, p: 0.4, q: -0.3 }],
  ])("%j finds its own law exactly, and says that nothing is left over", (options, law, expected) => {
    const fit = fitMovementTime(cellsBy(law), options);
    for (const [name, value] of Object.entries(expected)) expect(valueIn(fit, name as CoefficientName)).toBeCloseTo(value, 12);
    expect(fit.quality).toMatchObject({
      r2: expect.closeTo(1, 12),
      r: expect.closeTo(1, 12),
      aic: null,
      aicc: null,
      bic: null,
      leaveOneOutError: 0,
    });
    expect(fit.quality!.residualSd).toBeLessThan(1e-14);
    expect(fit.warnings).toEqual([]);
  });

  // Source: closed form, the linear law We = k A / MT (Schmidt et al. 1979, abstract read)
  it("finds the factor of the linear law and an intercept of 0", () => {
    const cells = cellsBy((a, w) => (0.03 * a) / w).map((cell) => ({ ...cell, effectiveWidth: cell.width, width: 20 }));
    const fit = fitMovementTime(cells, { model: "linear" });
    expect(valueIn(fit, "k")).toBeCloseTo(0.03, 12);
    expect(valueIn(fit, "a")).toBeCloseTo(0, 12);
    expect(fit.width).toBe("effective");
  });

  // Source: closed form; with normal residuals the Student intervals are exact, and so is the 5 % test of the curve. Noise of 30 ms on 16 crossed conditions; 99 % band of 2000 runs.
  it("holds the true law in as many intervals as their level says", () => {
    const random = createRandom(17);
    const law = (a: number, w: number): number => 0.15 + 0.13 * Math.log2(a / w + 1);
    const held = { a: 0, b: 0, next: 0, straight: 0 };
    for (let run = 0; run < 2000; run++) {
      const cells = cellsBy((a, w) => law(a, w) + random.normal(0, 0.03));
      const fit = fitMovementTime(cells, { predict: [{ amplitude: 240, width: 16 }] });
      const [low, high] = figuresOf(fit, "a").slice(2);
      if (low! <= 0.15 && high! >= 0.15) held.a++;
      const [least, most] = figuresOf(fit, "b").slice(2);
      if (least! <= 0.13 && most! >= 0.13) held.b++;
      if (!fit.warnings.includes("curved")) held.straight++;
      const next = law(240, 16) + random.normal(0, 0.03);
      const [foretold] = fit.predictions;
      if (foretold!.ok && foretold!.interval![0] <= next && foretold!.interval![1] >= next) held.next++;
    }
    console.info(
      `coverage at 95 %, n = 16, 2000 runs: intercept ${held.a / 2000}, slope ${held.b / 2000}, next cell ${held.next / 2000}; straight ${held.straight / 2000}`,
    );
    for (const count of Object.values(held)) expect(Math.abs(count / 2000 - 0.95)).toBeLessThan(band(0.95, 2000));
  });
});

describe("fitMovementTime properties", () => {
  const law = fc.constantFrom(...LAWS);

  test.prop([noisyCells, law, fc.integer({ min: -2, max: 10 })])("scales its coefficients with time", (cells, options, power) => {
    const scale = 2 ** power;
    const before = fitMovementTime(cells, options);
    const after = fitMovementTime(
      cells.map((cell) => ({ ...cell, movementTime: cell.movementTime * scale })),
      options,
    );
    for (const name of Object.keys(before.coefficients) as CoefficientName[]) {
      const factor = name === "p" || name === "q" ? 1 : scale;
      expect(
        allAlike(
          figuresOf(after, name),
          figuresOf(before, name).map((v) => v * factor),
          1e-9,
        ),
      ).toBe(true);
    }
    expect(alike(after.quality!.r2, before.quality!.r2)).toBe(true);
    expect(alike(after.quality!.residualSd, before.quality!.residualSd * scale)).toBe(true);
  });

  test.prop([noisyCells, law, fc.constantFrom(0.001, 0.264, 25.4)])(
    "depends on the unit of length only where the law does",
    (cells, options, scale) => {
      const resize = (cell: MovementTimeCell): MovementTimeCell => ({
        ...cell,
        amplitude: cell.amplitude * scale,
        width: cell.width * scale,
        effectiveWidth: cell.effectiveWidth! * scale,
      });
      const before = fitMovementTime(cells, options);
      const after = fitMovementTime(cells.map(resize), options);
      const moves = options.model === "twoPart" ? "a" : options.model === "power" ? "c" : undefined;
      for (const name of Object.keys(before.coefficients) as CoefficientName[]) {
        if (name !== moves) expect(allAlike(figuresOf(after, name), figuresOf(before, name), 1e-8)).toBe(true);
      }
      expect(allAlike(after.residuals as number[], before.residuals as number[], 1e-9)).toBe(true);
      expect(alike(after.quality!.leaveOneOutError ?? 0, before.quality!.leaveOneOutError ?? 0, 1e-8)).toBe(true);
    },
  );

  test.prop([noisyCells, fc.constantFrom(...LAWS.filter(({ model }) => model !== "power")), fc.integer({ min: 1, max: 500 })])(
    "moves its intercept alone when every time grows by the same",
    (cells, options, shift) => {
      const before = fitMovementTime(cells, options);
      const after = fitMovementTime(
        cells.map((cell) => ({ ...cell, movementTime: cell.movementTime + shift / 1000 })),
        options,
      );
      expect(alike(valueIn(after, "a"), valueIn(before, "a") + shift / 1000)).toBe(true);
      for (const name of Object.keys(before.coefficients) as CoefficientName[]) {
        if (name !== "a") expect(allAlike(figuresOf(after, name), figuresOf(before, name))).toBe(true);
      }
      expect(allAlike(after.residuals as number[], before.residuals as number[])).toBe(true);
    },
  );

  test.prop([noisyCells, law, fc.integer({ min: 0, max: 1e6 })])("does not depend on the order of the cells", (cells, options, seed) => {
    const random = createRandom(seed);
    const places = cells
      .map((_, i) => [i, random.uniform()] as const)
      .sort((one, other) => one[1] - other[1])
      .map(([i]) => i);
    const before = fitMovementTime(cells, options);
    const after = fitMovementTime(
      places.map((i) => cells[i]!),
      options,
    );
    for (const name of Object.keys(before.coefficients) as CoefficientName[]) {
      expect(allAlike(figuresOf(after, name), figuresOf(before, name), 1e-8)).toBe(true);
    }
    expect(after.warnings).toEqual(before.warnings);
    expect(
      allAlike(
        after.residuals as number[],
        places.map((i) => before.residuals[i]!),
        1e-9,
      ),
    ).toBe(true);
  });

  // a second, slow implementation: every condition left out and fitted anew
  test.prop([noisyCells, fc.constantFrom<FitMovementTimeOptions>({ model: "fitts" }, { model: "squareRoot" }, { model: "power" })])(
    "has the leave-one-out error of fitting anew without each condition",
    (cells, options) => {
      const fit = fitMovementTime(cells, options);
      const log = options.model === "power";
      const terms = cells.map(({ amplitude, width }) => {
        if (log) return [Math.log(amplitude), Math.log(width)];
        return [options.model === "fitts" ? Math.log2(amplitude / width + 1) : Math.sqrt(amplitude / width)];
      });
      let squares = 0;
      for (const out of cells) {
        const kept = cells.map((_, i) => i).filter((i) => cells[i]!.amplitude !== out.amplitude || cells[i]!.width !== out.width);
        const again = linearRegression(
          terms[0]!.map((_, j) => kept.map((i) => terms[i]![j]!)),
          kept.map((i) => (log ? Math.log(cells[i]!.movementTime) : cells[i]!.movementTime)),
        );
        fc.pre(again !== undefined);
        const at = terms[cells.indexOf(out)]!;
        const foretold = at.reduce((sum, value, j) => sum + value * again!.coefficients[j + 1]!, again!.coefficients[0]!);
        squares += (out.movementTime - (log ? Math.exp(foretold) : foretold)) ** 2;
      }
      expect(near(fit.quality!.leaveOneOutError!, Math.sqrt(squares / cells.length), 1e6)).toBe(true);
    },
  );

  test.prop([noisyCells, law, fc.integer({ min: 1, max: 99 })])(
    "survives JSON and cloning, leaves its input alone and echoes its options",
    (cells, options, percent) => {
      const frozen = Object.freeze(cells.map(Object.freeze)) as MovementTimeCell[];
      const fit = fitMovementTime(frozen, {
        ...options,
        level: percent / 100,
        predict: [
          { amplitude: 100, width: 20 },
          { amplitude: 1e6, width: 1 },
        ],
      });
      expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
      expect(structuredClone(fit)).toEqual(fit);
      expect(fit).toMatchObject({ model: options.model, level: percent / 100, n: cells.length });
      expect(fit.predictions[1]).toMatchObject({ ok: false, why: "notIdentified" });
      expect(
        fit.band.every(
          ({ value, confidence, prediction }) =>
            prediction[0] <= confidence[0] && confidence[0] <= value && value <= confidence[1] && confidence[1] <= prediction[1],
        ),
      ).toBe(true);
    },
  );

  it("takes the cells of throughput as they are, and counts those without spread when it needs it", () => {
    const { cells } = throughput({
      amplitude: Float64Array.of(200, 200, 200, 200, 400, 400, 400, 400, 800, 800, 800, 800, 800),
      width: Float64Array.of(40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 20),
      movementTime: Float64Array.of(0.5, 0.52, 0.49, 0.53, 0.62, 0.6, 0.66, 0.61, 0.78, 0.81, 0.74, 0.8, 0.95),
      along: Float64Array.of(3, -8, 5, 1, 4, -9, 12, -2, 10, -7, 3, -15, 2),
    });
    expect(fitMovementTime(cells)).toMatchObject({ n: 4, leftOut: { noEffectiveWidth: 0 }, coefficients: { b: { ok: true, n: 4 } } });
    const effective = fitMovementTime(cells, { width: "effective" });
    expect(effective).toMatchObject({ n: 3, leftOut: { noEffectiveWidth: 1, noEffectiveAmplitude: 0 } });
    expect(effective.residuals.map((value) => value === null)).toEqual([false, false, false, true]);
    expect(effective.warnings).toContain("fewTrials");
  });

  it("uses the effective amplitude where there is one, and leaves out movements away from the target", () => {
    const plain = cellsBy((a, w) => 0.1 + 0.12 * Math.log2(a / w + 1));
    const cells = plain.map((cell, i) => ({
      ...cell,
      amplitude: 999,
      width: 7,
      effectiveWidth: cell.width,
      effectiveAmplitude: i === 0 ? -3 : cell.amplitude,
    }));
    const fit = fitMovementTime(cells, { width: "effective" });
    expect(valueIn(fit, "b")).toBeCloseTo(0.12, 12);
    expect(fit).toMatchObject({ n: 15, leftOut: { noEffectiveWidth: 0, noEffectiveAmplitude: 1 }, conditions: 1 });
    expect(fit.quality!.leaveOneOutError).toBeNull();
  });

  it.each<[string, readonly MovementTimeCell[], FitMovementTimeOptions, readonly string[]]>([
    ["a long intercept", cellsBy((a, w) => 0.41 + 0.1 * Math.log2(a / w + 1)), {}, ["intercept"]],
    ["a short intercept", cellsBy((a, w) => 0.1 * Math.log2(a / w + 1) - 0.21 + 0.5 / w, [600, 900], [8, 16, 32, 64]), {}, ["intercept"]],
    ["a narrow range", cellsBy((a, w) => 0.2 + 0.1 * Math.log2(a / w + 1), [100, 120, 150], [20, 25]), {}, ["narrowRange"]],
    ["three levels", cellsBy((a, w) => 0.2 + 0.1 * Math.log2(a / w + 1), [100, 400], [10, 40]), {}, ["narrowRange"]],
    ["a fall", cellsBy((a, w) => 0.9 - 0.1 * Math.log2(a / w + 1)), {}, ["intercept", "slope"]],
    [
      "a fall with width alone",
      cellsBy((a, w) => 0.2 + 0.1 * Math.log2(a) + 0.1 * Math.log2(w)),
      { model: "twoPart", form: "fitts" },
      ["slope"],
    ],
    ["three conditions", cellsBy((a, w) => 0.2 + 0.1 * Math.log2(a / w + 1), [50, 100, 800], [20]), {}, ["narrowRange", "fewConditions"]],
    [
      "several people",
      [...cellsBy(() => 1), ...cellsBy(() => 1)].map((cell, i) => ({
        ...cell,
        movementTime: 0.2 + 0.1 * Math.log2(cell.amplitude / cell.width + 1),
        person: i < 16 ? "one" : "two",
      })),
      {},
      ["pooledPersons"],
    ],
    [
      "a linear law with an intercept",
      cellsBy((a, w) => 0.1 + (0.03 * a) / w).map((cell) => ({ ...cell, effectiveWidth: cell.width })),
      { model: "linear" },
      ["intercept"],
    ],
    ["an exact square", cellsBy((a, w) => 0.3 + 0.01 * Math.log2(a / w + 1) ** 2), {}, ["curved"]],
  ])("warns of %s", (_, cells, options, expected) => {
    expect(fitMovementTime(cells, options).warnings).toEqual(expect.arrayContaining([...expected]));
  });

  it("warns of sizes that rise and fall together, and refuses to tell apart what only does that", () => {
    const ladder = [
      { amplitude: 100, width: 10, movementTime: 0.61 },
      { amplitude: 200, width: 18, movementTime: 0.65 },
      { amplitude: 400, width: 42, movementTime: 0.64 },
      { amplitude: 800, width: 79, movementTime: 0.66 },
      { amplitude: 1600, width: 160, movementTime: 0.67 },
    ];
    expect(fitMovementTime(ladder, { model: "twoPart" }).warnings).toContain("notSeparable");
    const strict = ladder.map((cell) => ({ ...cell, width: cell.amplitude / 10 }));
    const oneWidth = ladder.map((cell) => ({ ...cell, width: 20 }));
    for (const cells of [strict, oneWidth]) {
      for (const model of ["twoPart", "power"] as const) {
        const fit = fitMovementTime(cells, { model, predict: [{ amplitude: 300, width: 30 }] });
        for (const coefficient of Object.values(fit.coefficients)) {
          expect(coefficient).toMatchObject({ ok: false, why: "notIdentified", n: 5, standardError: null });
        }
        expect(fit).toMatchObject({ quality: null, range: null, band: [], predictions: [{ ok: false, why: "notIdentified" }] });
        expect(fit.warnings).toContain("notSeparable");
      }
    }
    expect(fitMovementTime(strict).coefficients).toMatchObject({ b: { ok: false, why: "notIdentified", unit: "s/bit" } });
  });

  it("explains nothing where every time is the same", () => {
    const fit = fitMovementTime(cellsBy(() => 0.5));
    expect(fit.quality).toMatchObject({ r2: 0, r: 0, residualSd: 0, aic: null });
    expect(fit.coefficients).toMatchObject({ a: { value: 0.5 }, b: { value: 0, interval: [0, 0] } });
    expect(fit.warnings).toEqual(["intercept", "slope"]);
  });

  it("does not give a factor of the power law that vanishes or overflows", () => {
    const nearly = cellsBy((a, w) => (a > 1000.05 ? 2 : 1) * (w > 10 ? 0.5 : 0.6), [1000, 1000.1], [10, 20]);
    const fit = fitMovementTime(nearly, { model: "power" });
    expect(fit.coefficients.p).toMatchObject({ ok: true });
    expect(fit.coefficients.c).toMatchObject({ ok: false, why: "notIdentified" });
    const falling = nearly.map((cell) => ({ ...cell, movementTime: 1 / cell.movementTime }));
    expect(fitMovementTime(falling, { model: "power" }).coefficients.c).toMatchObject({ ok: false, why: "notIdentified" });
  });

  it("has no law in fewer cells than its coefficients and one", () => {
    for (const cells of [[], stylus.slice(0, 1), stylus.slice(0, 2)]) {
      expect(fitMovementTime(cells)).toMatchObject({
        quality: null,
        coefficients: { a: { ok: false, why: "tooFew", n: cells.length }, b: { ok: false, why: "tooFew" } },
      });
    }
    expect(fitMovementTime([]).warnings).toEqual([]);
    expect(fitMovementTime(stylus.slice(0, 3)).coefficients.b).toMatchObject({ ok: true, n: 3 });
    expect(fitMovementTime(stylus.slice(0, 3)).quality!.aicc).toBeNull();
  });
});

describe("fitMovementTime bad input", () => {
  const cell = { amplitude: 100, width: 10, movementTime: 0.5 };
  it.each<[unknown, FitMovementTimeOptions, RegExp]>([
    ["cells", {}, /^fitMovementTime: cells must be an array, got "cells"$/],
    [[null], {}, /cells\[0\] must be an object, got null/],
    [[cell, { ...cell, amplitude: 0 }], {}, /cells\[1\]\.amplitude must be finite and above 0, got 0/],
    [[{ ...cell, width: -1 }], {}, /cells\[0\]\.width must be finite and above 0, got -1/],
    [[{ ...cell, width: Number.NaN }], {}, /cells\[0\]\.width must be finite and above 0, got NaN/],
    [[{ ...cell, width: "10" }], {}, /cells\[0\]\.width must be a number, got "10"/],
    [[{ ...cell, amplitude: 1e300, width: 1e-300 }], {}, /cells\[0\]\.amplitude \/ cells\[0\]\.width must be .*, got Infinity/],
    [[{ ...cell, movementTime: 0 }], {}, /cells\[0\]\.movementTime must be above 0 and at most 1000000000, got 0/],
    [[{ ...cell, effectiveWidth: 0 }], {}, /cells\[0\]\.effectiveWidth must be finite and above 0, got 0/],
    [[{ ...cell, effectiveAmplitude: Number.POSITIVE_INFINITY }], {}, /cells\[0\]\.effectiveAmplitude must be finite, got Infinity/],
    [[{ ...cell, n: 0 }], {}, /cells\[0\]\.n must be finite and at least 1, got 0/],
    [[], { model: "cubic" as never }, /options\.model must be one of "fitts", "twoPart", .*got "cubic"/],
    [[], { form: "angular" as never }, /options\.form must be one of "shannon", "fitts", "welford", got "angular"/],
    [[], { width: "real" as never }, /options\.width must be one of "nominal", "effective", got "real"/],
    [[], { model: "linear", width: "nominal" }, /options\.width must be one of "effective", got "nominal"/],
    [[], { level: 1 }, /options\.level must be above 0 and below 1, got 1/],
    [[], { predict: 5 as never }, /options\.predict must be an array, got 5/],
    [[], { predict: [{ amplitude: 100, width: 0 }] }, /options\.predict\[0\]\.width must be finite and above 0, got 0/],
  ])("%j with %j is refused", (cells, options, message) => {
    expect(() => fitMovementTime(cells as MovementTimeCell[], options)).toThrow(message);
  });
});
