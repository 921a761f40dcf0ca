import { fc, test } from "@fast-check/vitest";
import { lusolve } from "mathjs";
import { describe, expect, it } from "vitest";
import { finiteDifferenceWeights } from "../../src/math/finite-difference-weights.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { runningTotals } from "../trace/plain-chain.js";

const reference = readReference("kinematics/derivatives.json");
const cases = (reference?.cases ?? []).filter(({ name }) => name.startsWith("weights"));

describe("finiteDifferenceWeights against outside values", () => {
  it.skipIf(!reference)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(cases.length).toBe(10));
  // Source: closed form (moment equations), reference/kinematics/derivatives.json.
  it.each(cases)("$name", ({ input, params, expected, tolerance }) => {
    const weights = finiteDifferenceWeights(input.nodes, params.at, params.derivative);
    for (const [i, value] of expected.weights.entries()) expect(within(weights[i]!, value, tolerance), `weight ${i}`).toBe(true);
  });
  // Source: the moment equations sum w_i (x_i - at)^k = k! [k = derivative], solved by mathjs 15.2.0.
  test.prop([fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 5 }), fc.integer({ min: -10, max: 60 }), fc.nat()])(
    "solves the moment equations",
    (steps, place, draw) => {
      const nodes = runningTotals([0, ...steps]).map((tenths) => tenths / 10);
      const at = place / 10;
      const derivative = draw % Math.min(3, nodes.length);
      const moments = nodes.map((_, k) => nodes.map((x) => (x - at) ** k));
      const right = nodes.map((_, k) => (k === derivative ? [1, 1, 2][k]! : 0));
      const expected = (lusolve(moments, right) as number[][]).map(([value]) => value!);
      const scale = Math.max(1, ...expected.map(Math.abs));
      for (const [i, weight] of finiteDifferenceWeights(nodes, at, derivative).entries()) {
        expect(Math.abs(weight - expected[i]!)).toBeLessThan(1e-7 * scale);
      }
    },
  );
});
