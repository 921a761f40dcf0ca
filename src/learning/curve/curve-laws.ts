import type { LearningLawName } from "../types.js";

/** What an exponential falls over: the logarithm of practice, or the steps since the first unit of it. */
export type LagKind = "log" | "steps";

/**
 * A built-in law, a + b g(N): the shape g depends on the parameters after a and b alone. A law without an asymptote has a = 0 throughout, the
 * constant has b = 0.
 */
export interface BuiltInLaw {
  readonly formula: string;
  /** Letters of the law, in the order a, b and those of the shape. */
  readonly letters: readonly string[];
  /** Parameters of g. */
  readonly shape: readonly ("c" | "d" | "e")[];
  /** For g = exp(-c u): whether u is ln N or N - 1. */
  readonly lag?: LagKind;
  /** Writes g and its derivatives by the parameters of the shape. */
  readonly at: (practice: number, shape: ArrayLike<number>, out: Float64Array) => void;
}

/** ln N, or N - 1. */
export function lagAt(kind: LagKind, practice: number): number {
  return kind === "log" ? Math.log(practice) : practice - 1;
}

const decay = (lag: LagKind): Pick<BuiltInLaw, "shape" | "lag" | "at"> => ({
  shape: ["c"],
  lag,
  at: (practice, shape, out) => {
    const u = lagAt(lag, practice);
    out[0] = Math.exp(-shape[0]! * u);
    out[1] = -u * out[0]!;
  },
});

/** Laws by name. */
export const LAWS: Readonly<Record<LearningLawName, BuiltInLaw>> = {
  constant: {
    formula: "a",
    letters: ["a"],
    shape: [],
    at: (_practice, _shape, out) => {
      out[0] = 0;
    },
  },
  linear: {
    formula: "a + b (N - 1)",
    letters: ["a", "b"],
    shape: [],
    at: (practice, _shape, out) => {
      out[0] = practice - 1;
    },
  },
  power2: { formula: "b N^-c", letters: ["b", "c"], ...decay("log") },
  power3: { formula: "a + b N^-c", letters: ["a", "b", "c"], ...decay("log") },
  power4: {
    formula: "a + b (N + e)^-c",
    letters: ["a", "b", "c", "e"],
    shape: ["c", "e"],
    at: (practice, shape, out) => {
      const all = practice + shape[1]!;
      const u = Math.log(all);
      const g = Math.exp(-shape[0]! * u);
      out[0] = g;
      out[1] = -u * g;
      out[2] = (-shape[0]! * g) / all;
    },
  },
  exponential2: { formula: "b exp(-c (N - 1))", letters: ["b", "c"], ...decay("steps") },
  exponential3: { formula: "a + b exp(-c (N - 1))", letters: ["a", "b", "c"], ...decay("steps") },
  combined: {
    formula: "a + b N^-c exp(-d N)",
    letters: ["a", "b", "c", "d"],
    shape: ["c", "d"],
    at: (practice, shape, out) => {
      const u = Math.log(practice);
      const g = Math.exp(-shape[0]! * u - shape[1]! * practice);
      out[0] = g;
      out[1] = -u * g;
      out[2] = -practice * g;
    },
  },
  delayedExponential: {
    formula: "a + b (d + 1)/(d + exp(c (N - 1)))",
    letters: ["a", "b", "c", "d"],
    shape: ["c", "d"],
    // through q = exp(-c (N - 1)), which cannot overflow after the first value: g = (d + 1) q/(1 + d q)
    at: (practice, shape, out) => {
      const d = shape[1]!;
      const q = Math.exp(-shape[0]! * (practice - 1));
      const below = 1 + d * q;
      out[0] = ((d + 1) * q) / below;
      out[1] = (-(practice - 1) * (d + 1) * q) / (below * below);
      out[2] = (q - q * q) / (below * below);
    },
  },
};

/** Whether the law needs practice above 0. */
export function needsPositive(name: LearningLawName): boolean {
  return name === "power2" || name === "power3" || name === "power4" || name === "combined";
}
