import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { meanEstimate } from "../../src/math/mean-estimate.js";
import { rmsEstimate } from "../../src/math/rms-estimate.js";
import { variableErrorEstimate } from "../../src/math/variable-error-estimate.js";
import { keepsEstimateRules, near, values } from "./estimate-properties.js";

describe("variableErrorEstimate against outside values", () => {
  // Source: NumPy 1.24.2 std (1/n); interval by the formula of Bonett 2006 (recalled) with SciPy 1.10.1 trim_mean and norm.ppf, computed (invented times)
  it("is the deviation with 1/n, its interval scaled alike", () => {
    expect(variableErrorEstimate([0.412, 0.388, 0.501, 0.447, 0.395, 0.46, 0.433, 0.522, 0.371, 0.418], "s")).toMatchObject({
      ok: true,
      value: expect.closeTo(0.04628185389545238, 14),
      unit: "s",
      n: 10,
      interval: [expect.closeTo(0.02904559724862275, 13), expect.closeTo(0.09172404289705445, 13)],
      level: 0.95,
    });
  });

  // Source: identity of the three errors, total^2 = constant^2 + variable^2 (textbook; exact in the 1/n form)
  test.prop([values(2)])("makes up the total error together with the constant error", (list) => {
    const [variable, constant, total] = [variableErrorEstimate(list, "mm"), meanEstimate(list, "mm"), rmsEstimate(list, "mm")];
    if (!variable.ok || !constant.ok || !total.ok) return;
    expect(near(variable.value ** 2 + constant.value ** 2, total.value ** 2)).toBe(true);
  });
});

describe("variableErrorEstimate properties", () => keepsEstimateRules(variableErrorEstimate));

describe("variableErrorEstimate bad input", () => {
  it("needs two values", () => expect(variableErrorEstimate([3], "s")).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 }));
  it("needs values that differ", () => expect(variableErrorEstimate([2, 2], "s")).toEqual({ ok: false, why: "noSpread", unit: "s", n: 2 }));
});
