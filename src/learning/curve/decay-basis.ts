/** Places of evenly spaced lags are even to this share of the last one. */
const EVEN = 1e-15;
/** Products between two exponentials: each adds a rounding. */
const BLOCK = 16;

/** The step between lags that are evenly spaced up to rounding, as counted sessions are; 0 for others. */
export function evenStep(lag: Float64Array): number {
  const n = lag.length;
  if (n < 2) return 0;
  const first = lag[0]!;
  const step = (lag[n - 1]! - first) / (n - 1);
  const slack = EVEN * Math.max(Math.abs(first), Math.abs(lag[n - 1]!));
  for (let i = 1; i < n; i++) {
    if (Math.abs(lag[i]! - first - i * step) > slack) return 0;
  }
  return step;
}

/** Fills `basis` with exp(-c u); over even steps one exponential in sixteen values is computed, and the others follow by products. */
export function fillBasis(lag: Float64Array, step: number, c: number, basis: Float64Array): void {
  const n = lag.length;
  if (step === 0) {
    for (let i = 0; i < n; i++) basis[i] = Math.exp(-c * lag[i]!);
    return;
  }
  const share = Math.exp(-c * step);
  for (let from = 0; from < n; from += BLOCK) {
    const to = Math.min(from + BLOCK, n);
    let g = Math.exp(-c * lag[from]!);
    for (let i = from; i < to; i++) {
      basis[i] = g;
      g *= share;
    }
  }
}
