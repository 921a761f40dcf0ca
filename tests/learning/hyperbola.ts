import type { LearningLaw, LearningLawName } from "../../src/learning/types.js";

/** a + b/(1 + c (N - 1)), no built-in law. */
export const hyperbola: LearningLaw = {
  formula: "a + b/(1 + c (N - 1))",
  parameters: ["a", "b", "c"],
  starts: [
    [0.5, 1, 0.2],
    [0.3, 1, 0.1],
  ],
  lower: [0, Number.NEGATIVE_INFINITY, 0],
  upper: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 20],
  value: (at, p) => p[0]! + p[1]! / (1 + p[2]! * (at - 1)),
  gradient: (at, p, out) => {
    const below = 1 + p[2]! * (at - 1);
    out[0] = 1;
    out[1] = 1 / below;
    out[2] = (-p[1]! * (at - 1)) / (below * below);
  },
};

/** Laws by their names in the reference table. */
export const REFERENCE_LAWS: Readonly<Record<string, LearningLawName | LearningLaw>> = {
  pow2: "power2",
  pow3: "power3",
  pow4: "power4",
  exp2: "exponential2",
  exp3: "exponential3",
  apex: "combined",
  hyp3: hyperbola,
};
