import { lognormalSpeed } from "../../math/lognormal-bell.js";
import { minimumJerkSpeed } from "../../math/minimum-jerk.js";

/** Shape of one component's speed: the symmetric minimum-jerk bell, or the support-bounded lognormal with a peak where the data put it. */
export type BellKind = "minimumJerk" | "lognormal";

/** Parameters of a component: onset and duration, seconds; for the lognormal also mu and sigma. */
export const PARAMETERS_OF: Readonly<Record<BellKind, number>> = { minimumJerk: 2, lognormal: 4 };

/** An even grid of samples with the weight each has in the fit; the first lies at time 0. */
export interface WeightedGrid {
  /** Seconds between samples. */
  readonly step: number;
  readonly weights: Float64Array;
}

/** Fills `column` with the weighted speed of a component of unit amplitude whose parameters begin at `at`. */
export function fillBell(kind: BellKind, parameters: Float64Array, at: number, grid: WeightedGrid, column: Float64Array): void {
  const { step, weights } = grid;
  const onset = parameters[at]!;
  const duration = parameters[at + 1]!;
  column.fill(0);
  const end = Math.min(column.length, Math.ceil((onset + duration) / step));
  for (let i = Math.max(0, Math.floor(onset / step)); i < end; i++) {
    const s = (i * step - onset) / duration;
    const speed = kind === "minimumJerk" ? minimumJerkSpeed(s) : lognormalSpeed(s, parameters[at + 2]!, parameters[at + 3]!);
    column[i] = (weights[i]! * speed) / duration;
  }
}

/** Fills `derivatives[at]` and on with the derivatives of that column by each of its parameters. */
export function fillBellDerivatives(
  kind: BellKind,
  parameters: Float64Array,
  at: number,
  grid: WeightedGrid,
  derivatives: readonly Float64Array[],
): void {
  const { step, weights } = grid;
  const onset = parameters[at]!;
  const duration = parameters[at + 1]!;
  const byOnset = derivatives[at]!;
  const byDuration = derivatives[at + 1]!;
  for (let q = 0; q < PARAMETERS_OF[kind]; q++) derivatives[at + q]!.fill(0);
  const end = Math.min(byOnset.length, Math.ceil((onset + duration) / step));
  for (let i = Math.max(0, Math.floor(onset / step)); i < end; i++) {
    const s = (i * step - onset) / duration;
    if (s <= 0 || s >= 1) continue;
    const u = 1 - s;
    const scale = weights[i]! / duration;
    let speed: number;
    let slope: number; // of the speed in its own time
    if (kind === "minimumJerk") {
      speed = minimumJerkSpeed(s);
      slope = 60 * s * u * (u - s);
    } else {
      const mu = parameters[at + 2]!;
      const sigma = parameters[at + 3]!;
      const z = (Math.log(s / u) - mu) / sigma;
      speed = lognormalSpeed(s, mu, sigma);
      slope = (-speed * (z / sigma + u - s)) / (s * u);
      derivatives[at + 2]![i] = (scale * speed * z) / sigma;
      derivatives[at + 3]![i] = (scale * speed * (z * z - 1)) / sigma;
    }
    byOnset[i] = (-scale * slope) / duration;
    byDuration[i] = (-scale * (speed + s * slope)) / duration;
  }
}
