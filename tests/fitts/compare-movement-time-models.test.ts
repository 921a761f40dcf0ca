import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { compareMovementTimeModels, type ModelComparison } from "../../src/fitts/compare-movement-time-models.js";
import { fitMovementTime } from "../../src/fitts/fit-movement-time.js";
import type { MovementTimeCell } from "../../src/fitts/models/movement-time.js";
import { createRandom } from "../../src/math/random.js";
import { cellsBy, noisyCells } from "./movement-cells.js";

const nameOf = ({ fit }: ModelComparison["models"][number]): string => (fit.form === null ? fit.model : `${fit.model} ${fit.form}`);

// Fitts (1954), Table 1, stylus of 1 oz, as typed in the reprint of MacKenzie (1991), chapter 2
const times = [392, 484, 580, 731, 281, 372, 469, 595, 212, 260, 357, 481, 180, 203, 279, 388];
const widths = [0.243, 0.244, 0.235, 0.247, 0.444, 0.468, 0.446, 0.468, 0.725, 0.812, 0.914, 0.832, 1.02, 1.233, 1.576, 1.519];
const stylus = cellsBy(() => 1, [2, 4, 8, 16], [0.25, 0.5, 1, 2]).map((cell, i) => ({
  ...cell,
  movementTime: times[i]! / 1000,
  effectiveWidth: widths[i]!,
}));

describe("compareMovementTimeModels against outside values", () => {
  const comparison = compareMovementTimeModels(stylus);

  // Source: MacKenzie 1989 (recalled): on the stylus data of Fitts the Shannon form fits best, Welford's next, Fitts' own last (r .9936, .9900, .9831)
  it("puts the three forms in the published order", () => {
    expect(comparison.models.map(nameOf).filter((name) => name.startsWith("fitts"))).toEqual([
      "fitts shannon",
      "fitts welford",
      "fitts fitts",
    ]);
    expect(nameOf(comparison.models[0]!)).toBe("fitts shannon");
  });

  // Source: statsmodels 0.15.0 (log-likelihoods) and NumPy 2.4.6 (each condition left out and fitted anew), computed on the same table
  it.each([
    ["power", 0.023424674696494643 / 0.021613905110914863, -73.76581894057846 + 76.70161903354993, false],
    ["squareRoot", 0.034939315920642464 / 0.021613905110914863, -63.17457367938178 + 76.70161903354993, true],
    ["twoPart fitts", 0.03678032527689512 / 0.021613905110914863, -57.50104013391087 + 76.70161903354993, true],
  ])("has the ratio of errors and the difference of AICc of %s", (name, errorRatio, aiccDifference, worse) => {
    expect(comparison.models.find((model) => nameOf(model) === name)).toMatchObject({
      errorRatio: expect.closeTo(errorRatio, 10),
      aiccDifference: expect.closeTo(aiccDifference, 9),
      worse,
    });
    expect(comparison).toMatchObject({ n: 16, warnings: ["notDistinguished", "effectiveSizes"] });
  });

  // Source: closed form, cells made by one law with small noise: the law that made them foretells best
  it.each<[string, (a: number, w: number) => number]>([
    ["fitts fitts", (a, w) => 0.1 + 0.13 * Math.log2((2 * a) / w)],
    ["squareRoot", (a, w) => 0.2 + 0.09 * Math.sqrt(a / w)],
    ["power", (a, w) => 0.15 * a ** 0.45 * w ** -0.15],
    ["twoPart shannon", (a, w) => 0.3 + 0.13 * Math.log2(a + w) - 0.06 * Math.log2(w)],
  ])("finds the law %s again", (name, law) => {
    const random = createRandom(3);
    const found = compareMovementTimeModels(cellsBy((a, w) => law(a, w) + random.normal(0, 0.003)));
    expect(nameOf(found.models[0]!)).toBe(name);
  });

  // Source: closed form: where every width is far below its amplitude, log2(A/W + c) is log2(A/W) but for a constant, whatever c
  it("says that cells cannot choose between forms that hardly differ on them", () => {
    const random = createRandom(5);
    const cells = cellsBy((a, w) => 0.1 + 0.13 * Math.log2(a / w + 1) + random.normal(0, 0.02), [400, 800, 1600], [4, 8, 16]);
    const { models, warnings } = compareMovementTimeModels(cells);
    expect(warnings).toContain("notDistinguished");
    const forms = models.filter((model) => nameOf(model).startsWith("fitts"));
    expect(forms.map(({ worse }) => worse)).toEqual([false, false, false]);
  });

  // Source: closed form, cells made by Shannon's law on 16 conditions. How often the law that made them is called worse, and how often laws of another
  // shape are, by noise; the bounds in the code were set by this simulation, with other draws.
  it.each([
    [0.01, 0.99, 0.99],
    [0.02, 0.75, 0.99],
    [0.04, 0.2, 0.85],
  ])("hold the true law worse in no more than a tenth of the sets at a noise of %d s", (noise, leastForm, leastRoot) => {
    const random = createRandom(Math.round(noise * 1000));
    const runs = 300;
    const worse: Record<string, number> = {};
    for (let run = 0; run < runs; run++) {
      const { models } = compareMovementTimeModels(cellsBy((a, w) => 0.15 + 0.13 * Math.log2(a / w + 1) + random.normal(0, noise)));
      for (const model of models) if (model.worse) worse[nameOf(model)] = (worse[nameOf(model)] ?? 0) + 1;
    }
    const share = (name: string): number => (worse[name] ?? 0) / runs;
    console.info(
      `called worse at ${noise} s: true law ${share("fitts shannon")}, form fitts ${share("fitts fitts")}, square root ${share("squareRoot")}`,
    );
    expect(share("fitts shannon")).toBeLessThan(0.1);
    expect(share("fitts fitts")).toBeGreaterThan(leastForm);
    expect(share("squareRoot")).toBeGreaterThan(leastRoot);
  });
});

describe("compareMovementTimeModels properties", () => {
  const width = fc.constantFrom("nominal" as const, "effective" as const);

  test.prop([noisyCells, width])("sorts by error, measures from the first and keeps each fit as it is alone", (cells, sizes) => {
    const { models, n } = compareMovementTimeModels(Object.freeze(cells.map(Object.freeze)) as MovementTimeCell[], {
      width: sizes,
      level: 0.9,
    });
    expect(models).toHaveLength(8);
    expect(n).toBe(cells.length);
    const errors = models.map(({ fit }) => fit.quality?.leaveOneOutError ?? Number.POSITIVE_INFINITY);
    expect(errors).toEqual(errors.slice().sort((one, other) => one - other));
    expect(models[0]).toMatchObject({ worse: false });
    for (const { fit, errorRatio, aiccDifference, worse } of models) {
      const form = fit.form === null ? {} : { form: fit.form };
      const own = fit.model === "linear" ? "effective" : sizes;
      expect(fit).toEqual(fitMovementTime(cells, { model: fit.model, ...form, width: own, level: 0.9 }));
      if (errorRatio !== null) expect(errorRatio).toBeGreaterThanOrEqual(1);
      expect(worse).toBe((aiccDifference ?? 0) > 4 && (errorRatio ?? 0) > 1.1);
    }
  });

  test.prop([noisyCells, width])("survives JSON and cloning", (cells, sizes) => {
    const comparison = compareMovementTimeModels(cells, { width: sizes });
    expect(JSON.parse(JSON.stringify(comparison))).toEqual(comparison);
    expect(structuredClone(comparison)).toEqual(comparison);
  });

  it("fits every law to the same cells, and goes without the linear one where effective sizes are missing", () => {
    const some = stylus.map((cell, i) => ({ ...cell, effectiveWidth: i === 3 ? null : cell.effectiveWidth }));
    const nominal = compareMovementTimeModels(some);
    expect(nominal).toMatchObject({ n: 16, leftOut: { noEffectiveWidth: 0 }, warnings: ["notDistinguished", "noLinear"] });
    expect(nominal.models.map(nameOf)).not.toContain("linear");
    const effective = compareMovementTimeModels(some, { width: "effective" });
    expect(effective).toMatchObject({ n: 15, leftOut: { noEffectiveWidth: 1 } });
    expect(effective.models.every(({ fit }) => fit.n === 15 && fit.residuals[3] === null)).toBe(true);
    expect(effective.models.map(nameOf)).toContain("linear");
  });

  it("calls the others worse beside a law without error, and those without error as good", () => {
    const { models, warnings } = compareMovementTimeModels(cellsBy((a, w) => 0.1 + 0.12 * Math.log2(a / w + 1)));
    expect(models.filter(({ worse }) => !worse).map(nameOf)).toEqual(["fitts shannon", "twoPart shannon"]);
    expect(models.every(({ errorRatio }) => errorRatio === null)).toBe(true);
    expect(warnings).toContain("notDistinguished");
  });

  it("judges nothing without enough cells", () => {
    for (const cells of [[], stylus.slice(0, 2)]) {
      const { models, warnings } = compareMovementTimeModels(cells);
      expect(models.every(({ fit, worse, errorRatio }) => fit.quality === null && !worse && errorRatio === null)).toBe(true);
      expect(warnings).not.toContain("notDistinguished");
    }
  });
});

describe("compareMovementTimeModels bad input", () => {
  it.each<[unknown, object, RegExp]>([
    [undefined, {}, /^compareMovementTimeModels: cells must be an array, got undefined$/],
    [
      [{ amplitude: 100, width: 0, movementTime: 1 }],
      {},
      /^compareMovementTimeModels: cells\[0\]\.width must be finite and above 0, got 0$/,
    ],
    [[], { width: "both" }, /^compareMovementTimeModels: options\.width must be one of "nominal", "effective", got "both"$/],
    [[], { level: 0 }, /^compareMovementTimeModels: options\.level must be above 0 and below 1, got 0$/],
  ])("%j with %j is refused", (cells, options, message) => {
    expect(() => compareMovementTimeModels(cells as MovementTimeCell[], options)).toThrow(message);
  });
});
