import { backSubstitute, triangularize } from "./linear-solve.js";

/** The linear model of the residuals about one point, reduced once to a triangle and then solved for as many dampings as it takes. */
export interface LocalModel {
  /** Takes over a Jacobian; returns the largest |column . residuals| / |column| among the parameters free to move, NaN if it is not finite. */
  readonly prepare: (jacobian: Float64Array, residuals: Float64Array, at: Float64Array) => number;
  /** Writes the damped step from `at` into `trial`, cut at the bounds; returns the gain the linear model promises for it. */
  readonly step: (damping: number, at: Float64Array, trial: Float64Array) => number;
  /** For each parameter the largest effect on the residuals seen so far: its unit in comparisons of steps. */
  readonly scale: Float64Array;
}

/** A local model for `size` residuals and parameters within the bounds. */
export function createLocalModel(size: number, lower: Float64Array, upper: Float64Array): LocalModel {
  const p = lower.length;
  const scale = new Float64Array(p);
  const reduced = new Float64Array(size * p);
  const side = new Float64Array(size);
  const stacked = new Float64Array(2 * p * p);
  const stackedSide = new Float64Array(2 * p);
  const free = new Int32Array(p);
  const move = new Float64Array(p);
  const gradient = new Float64Array(p);
  let k = 0;
  let rows = 0;

  function prepare(jacobian: Float64Array, residuals: Float64Array, at: Float64Array): number {
    let steepest = 0;
    k = 0;
    for (let j = 0; j < p; j++) {
      let square = 0;
      let slope = 0;
      const from = j * size;
      for (let i = 0; i < size; i++) {
        const entry = jacobian[from + i]!;
        square += entry * entry;
        slope += entry * residuals[i]!;
      }
      const norm = Math.sqrt(square);
      if (!(norm < Number.POSITIVE_INFINITY)) return Number.NaN;
      scale[j] = Math.max(scale[j]!, norm);
      gradient[j] = slope;
      const held = norm === 0 || (at[j]! <= lower[j]! && slope > 0) || (at[j]! >= upper[j]! && slope < 0);
      if (held) continue;
      free[k++] = j;
      steepest = Math.max(steepest, Math.abs(slope) / norm);
    }
    for (let c = 0; c < k; c++) {
      const from = free[c]! * size;
      for (let i = 0; i < size; i++) reduced[c * size + i] = jacobian[from + i]!;
    }
    for (let i = 0; i < size; i++) side[i] = -residuals[i]!;
    rows = Math.min(size, k);
    triangularize(reduced, size, k, side);
    return steepest;
  }

  function step(damping: number, at: Float64Array, trial: Float64Array): number {
    // the triangle on top of the damping, one column after another
    const height = rows + k;
    stacked.fill(0);
    stackedSide.fill(0);
    for (let c = 0; c < k; c++) {
      for (let i = 0; i <= c && i < rows; i++) stacked[c * height + i] = reduced[c * size + i]!;
      stacked[c * height + rows + c] = Math.sqrt(damping) * scale[free[c]!]!;
    }
    for (let i = 0; i < rows; i++) stackedSide[i] = side[i]!;
    triangularize(stacked, height, k, stackedSide);
    backSubstitute(stacked, height, k, stackedSide, move);
    trial.set(at);
    for (let c = 0; c < k; c++) {
      const j = free[c]!;
      trial[j] = clamp(at[j]! + move[c]!, lower[j]!, upper[j]!);
    }
    // promised gain of the step as cut: -(2 gradient . d + |J d|^2), with |J d| taken from the triangle
    let promised = 0;
    for (let i = 0; i < rows; i++) {
      let along = 0;
      for (let c = i; c < k; c++) along += reduced[c * size + i]! * (trial[free[c]!]! - at[free[c]!]!);
      promised -= along * along;
    }
    for (let c = 0; c < k; c++) promised -= 2 * gradient[free[c]!]! * (trial[free[c]!]! - at[free[c]!]!);
    return promised;
  }
  return { prepare, step, scale };
}

/** `value`, or the nearer bound when it lies outside. */
export function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
