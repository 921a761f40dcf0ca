import type { LearningLaw, LearningLawName } from "../types.js";
import { type BuiltInLaw, LAWS, type LagKind, lagAt } from "./curve-laws.js";
import { evenStep, fillBasis } from "./decay-basis.js";

/** A law with its parameters in the order that solvers use: of a built-in law a, b and those of the shape, also where the law has no a or no b. */
export interface CurveModel {
  readonly name: LearningLawName | "own";
  readonly formula: string;
  readonly letters: readonly string[];
  /** Which of `letters` the law really has. */
  readonly real: readonly boolean[];
  readonly builtIn: BuiltInLaw | undefined;
  readonly value: (practice: number, parameters: ArrayLike<number>) => number;
  /** Derivatives by each of `letters`. */
  readonly gradient: (practice: number, parameters: ArrayLike<number>, out: Float64Array) => void;
  /** Fills the value of each entry, and the derivatives by each of `letters`, one column after another. */
  readonly fill: (practice: Float64Array, parameters: ArrayLike<number>, values: Float64Array, jacobian: Float64Array) => void;
}

export function curveModel(law: LearningLawName | LearningLaw): CurveModel {
  if (typeof law !== "string") {
    return {
      name: "own",
      formula: law.formula,
      letters: law.parameters,
      real: law.parameters.map(() => true),
      builtIn: undefined,
      value: law.value,
      gradient: law.gradient,
      fill: fillByRows(law.value, law.gradient, law.parameters.length),
    };
  }
  const builtIn = LAWS[law];
  const letters = ["a", "b", ...builtIn.shape];
  const looks = new Float64Array(3);
  const theta = new Float64Array(2);
  const look = (practice: number, parameters: ArrayLike<number>): void => {
    for (let k = 0; k < builtIn.shape.length; k++) theta[k] = parameters[2 + k]!;
    builtIn.at(practice, theta, looks);
  };
  const value = (practice: number, parameters: ArrayLike<number>): number => {
    look(practice, parameters);
    // without the product of an infinite b and a vanished g
    return looks[0] === 0 ? parameters[0]! : parameters[0]! + parameters[1]! * looks[0]!;
  };
  const gradient = (practice: number, parameters: ArrayLike<number>, out: Float64Array): void => {
    look(practice, parameters);
    out[0] = 1;
    out[1] = looks[0]!;
    for (let k = 0; k < builtIn.shape.length; k++) out[2 + k] = looks[1 + k] === 0 ? 0 : parameters[1]! * looks[1 + k]!;
  };
  const { lag } = builtIn;
  return {
    name: law,
    formula: builtIn.formula,
    letters,
    real: letters.map((letter) => builtIn.letters.includes(letter)),
    builtIn,
    value,
    gradient,
    fill: lag === undefined ? fillByRows(value, gradient, letters.length) : (...all) => fillDecay(lag, ...all),
  };
}

function fillByRows(value: CurveModel["value"], gradient: CurveModel["gradient"], p: number): CurveModel["fill"] {
  const row = new Float64Array(p);
  return (practice, parameters, values, jacobian) => {
    const n = practice.length;
    for (let i = 0; i < n; i++) {
      values[i] = value(practice[i]!, parameters);
      gradient(practice[i]!, parameters, row);
      for (let j = 0; j < p; j++) jacobian[j * n + i] = row[j]!;
    }
  };
}

function fillDecay(
  lag: LagKind,
  practice: Float64Array,
  parameters: ArrayLike<number>,
  values: Float64Array,
  jacobian: Float64Array,
): void {
  const n = practice.length;
  const a = parameters[0]!;
  const b = parameters[1]!;
  // the last column holds u, and in the end its tilt; a second look at it is cheaper than a column more
  const lags = jacobian.subarray(2 * n);
  const basis = jacobian.subarray(n, 2 * n);
  for (let i = 0; i < n; i++) lags[i] = lagAt(lag, practice[i]!);
  fillBasis(lags, evenStep(lags), parameters[2]!, basis);
  for (let i = 0; i < n; i++) {
    const g = basis[i]!;
    values[i] = g === 0 ? a : a + b * g;
    jacobian[i] = 1;
    lags[i] = g === 0 ? 0 : -b * lags[i]! * g;
  }
}
