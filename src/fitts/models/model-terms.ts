import { indexOfDifficulty } from "../index-of-difficulty.js";
import type { CoefficientName, MovementTimeForm, MovementTimeModel } from "./movement-time.js";

/** A law as an intercept and terms, linear in its coefficients on some scale of time. */
export interface ModelTerms {
  /** Letter and unit of each coefficient, the intercept first. */
  readonly coefficients: readonly (readonly [name: CoefficientName, unit: string])[];
  /** Sign that each term's coefficient has when time grows with difficulty. */
  readonly signs: readonly number[];
  /** Unit of the term, for a law with one. */
  readonly unit: string;
  /** Values of the terms. */
  readonly at: (amplitude: number, width: number) => number[];
  /** Whether the law is linear in the logarithm of time. */
  readonly logarithmic: boolean;
  /** From seconds to the scale on which the law is linear, and back. */
  readonly toScale: (time: number) => number;
  readonly toTime: (value: number) => number;
}

/** Share of the width that is added to the amplitude. */
const ADDED: Readonly<Record<MovementTimeForm, number>> = { fitts: 0, welford: 0.5, shannon: 1 };
const A = ["a", "s"] as const;
const PLAIN = { logarithmic: false, toScale: (time: number): number => time, toTime: (value: number): number => value };
const LOGARITHMIC = { logarithmic: true, toScale: Math.log, toTime: Math.exp };

export function modelTerms(model: MovementTimeModel, form: MovementTimeForm): ModelTerms {
  switch (model) {
    case "fitts":
      return {
        ...PLAIN,
        coefficients: [A, ["b", "s/bit"]],
        signs: [1],
        unit: "bit",
        at: (amplitude, width) => [indexOfDifficulty(amplitude, width, { form })],
      };
    case "squareRoot":
      return { ...PLAIN, coefficients: [A, ["b", "s"]], signs: [1], unit: "", at: (amplitude, width) => [Math.sqrt(amplitude / width)] };
    case "linear":
      return { ...PLAIN, coefficients: [A, ["k", "s"]], signs: [1], unit: "", at: (amplitude, width) => [amplitude / width] };
    case "twoPart":
      return {
        ...PLAIN,
        coefficients: [A, ["b1", "s/bit"], ["b2", "s/bit"]],
        signs: [1, 1],
        unit: "bit",
        at: (amplitude, width) => [Math.log2(amplitude + ADDED[form] * width), -Math.log2(width)],
      };
    case "power":
      return {
        ...LOGARITHMIC,
        coefficients: [
          ["c", "s"],
          ["p", ""],
          ["q", ""],
        ],
        signs: [1, -1],
        unit: "",
        at: (amplitude, width) => [Math.log(amplitude), Math.log(width)],
      };
  }
}
