import type { LearnerCurve } from "./options.js";

/** Level of a learner's curve at practice `n`, counted from 1. */
export function curveLevel({ law, a, b, c, d, e, at }: LearnerCurve, n: number): number {
  switch (law) {
    case "exponential":
      return a + b * Math.exp(-c * (n - 1));
    case "power":
      return a + b * (n + e) ** -c;
    case "combined":
      return a + b * (n + e) ** -c * Math.exp(-d * n);
    case "delayedExponential":
      return a + (b * (d + 1)) / (d + Math.exp(c * (n - 1)));
    case "linear":
      return a + b * (n - 1);
    case "step":
      return n < at ? a + b : a;
    case "flat":
      return a;
  }
}
