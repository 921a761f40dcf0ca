// The certified nonlinear problems, made from their texts, and the starts of the comparison with other programs.
import { lawFromText } from "../../src/formula/law-from-text.js";
import type { FitProblem } from "../../src/math/fit-problem.js";
import { createRandom } from "../../src/math/random.js";
import type { ReferenceCase } from "../shared.js";

/** Digits that the certified figures hold. */
const PRINTED_DIGITS = 11;

/** The problem with its parameters in the order b1, b2, ... */
export function nistProblem({ input, params }: ReferenceCase, starts: readonly (readonly number[])[]): FitProblem {
  const law = lawFromText(params.model, { practice: "x" });
  const p = law.parameters.length;
  const order = Array.from({ length: p }, (_, j) => law.parameters.indexOf(`b${j + 1}`));
  const x: readonly number[] = input.x;
  const own = new Float64Array(p);
  const slopes = new Float64Array(p);
  const load = (parameters: Float64Array): void => {
    for (let j = 0; j < p; j++) own[order[j]!] = parameters[j]!;
  };
  return {
    data: input.y,
    starts,
    evaluate: (parameters, values) => {
      load(parameters);
      for (let i = 0; i < x.length; i++) values[i] = law.value(x[i]!, own);
    },
    differentiate: (parameters, jacobian) => {
      load(parameters);
      for (let i = 0; i < x.length; i++) {
        law.gradient(x[i]!, own, slopes);
        for (let j = 0; j < p; j++) jacobian[j * x.length + i] = slopes[order[j]!]!;
      }
    },
  };
}

/** `count` starts from each certified start: every parameter times exp(z / 2), z standard normal. The first of 100 are the same as of 10. */
export function perturbedStarts({ params }: ReferenceCase, problem: number, count: number, seed: number): number[][] {
  return [params.start1, params.start2].flatMap((start: number[], k) => {
    const random = createRandom(seed, 2 * problem + k);
    return Array.from({ length: count }, () => start.map((value) => value * Math.exp(random.normal(0, 0.5))));
  });
}

/** Fewest digits that agree with the certified figures, at most the 11 they have; 0 when one is missing. */
export function agreeingDigits(got: ArrayLike<number | null>, certified: readonly number[]): number {
  return Math.min(
    ...certified.map((expected, j) => {
      const error = Math.abs((got[j] ?? Number.NaN) / expected - 1);
      return Number.isFinite(error) ? Math.min(PRINTED_DIGITS, Math.max(0, -Math.log10(Math.max(error, 1e-16)))) : 0;
    }),
  );
}
