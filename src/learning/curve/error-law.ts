import type { CurveColumns } from "./columns.js";

/** How values scatter about the law. */
export type CurveErrors = "normal" | "lognormal" | "binomial";

/** Residuals whose squares sum to what is to be made small, and their derivative by the fitted value. */
export interface ErrorLaw {
  readonly residual: (value: number, fitted: number, weight: number) => number;
  readonly slope: (value: number, fitted: number, weight: number) => number;
  /** Information that one value carries about the fitted value, per unit of variance. */
  readonly information: (fitted: number, weight: number) => number;
}

/** A share nearer to 0 or 1 is held off by a steep straight line in place of the logarithm. */
const EDGE = 1e-7;

const normal: ErrorLaw = {
  residual: (value, fitted, weight) => Math.sqrt(weight) * (value - fitted),
  slope: (_value, _fitted, weight) => -Math.sqrt(weight),
  information: (_fitted, weight) => weight,
};

const lognormal: ErrorLaw = {
  // not a number for a law that is not above 0, which a search takes for a bad step
  residual: (value, fitted, weight) => Math.sqrt(weight) * (Math.log(value) - Math.log(fitted)),
  slope: (_value, fitted, weight) => -Math.sqrt(weight) / fitted,
  information: (fitted, weight) => weight / (fitted * fitted),
};

// the signed root of the deviance: the sum of its squares is least where the likelihood is greatest
function devianceRoot(share: number, fitted: number, trials: number): number {
  const hits = share > 0 ? share * Math.log(share / fitted) : 0;
  const misses = share < 1 ? (1 - share) * Math.log((1 - share) / (1 - fitted)) : 0;
  const root = Math.sqrt(Math.max(0, 2 * trials * (hits + misses)));
  return share > fitted ? root : -root;
}

function devianceSlope(share: number, fitted: number, trials: number): number {
  const variance = fitted * (1 - fitted);
  const root = devianceRoot(share, fitted, trials);
  const gap = share - fitted;
  // near the share the root is all but straight, and both the root and the gap lose their digits
  if (Math.abs(gap) < 1e-6 * variance) return -Math.sqrt(trials / variance);
  return (-trials * gap) / (variance * root);
}

const binomial: ErrorLaw = {
  residual: (share, fitted, trials) => {
    const near = Math.min(Math.max(fitted, EDGE), 1 - EDGE);
    const root = devianceRoot(share, near, trials);
    return near === fitted ? root : root + devianceSlope(share, near, trials) * (fitted - near);
  },
  slope: (share, fitted, trials) => devianceSlope(share, Math.min(Math.max(fitted, EDGE), 1 - EDGE), trials),
  information: (fitted, trials) => {
    const near = Math.min(Math.max(fitted, EDGE), 1 - EDGE);
    return trials / (near * (1 - near));
  },
};

export const ERROR_LAWS: Readonly<Record<CurveErrors, ErrorLaw>> = { normal, lognormal, binomial };

/** Log likelihood at the residual sum (or the deviance); `null` for an exact fit of normal errors. */
export function logLikelihood(
  errors: CurveErrors,
  columns: CurveColumns,
  residualSum: number,
  logChoose: (n: number, k: number) => number,
): number | null {
  const { n, value, weight, weighted } = columns;
  if (errors === "binomial") {
    let sum = -residualSum / 2;
    for (let i = 0; i < n; i++) {
      const [share, trials] = [value[i]!, weight[i]!];
      sum += logChoose(trials, share * trials);
      if (share > 0) sum += trials * share * Math.log(share);
      if (share < 1) sum += trials * (1 - share) * Math.log(1 - share);
    }
    return sum;
  }
  if (!(residualSum > 0)) return null;
  let sum = (-n / 2) * (Math.log(2 * Math.PI) + Math.log(residualSum / n) + 1);
  if (weighted) for (let i = 0; i < n; i++) sum += Math.log(weight[i]!) / 2;
  // the density of a value is that of its logarithm over the value
  if (errors === "lognormal") for (let i = 0; i < n; i++) sum -= Math.log(value[i]!);
  return sum;
}
