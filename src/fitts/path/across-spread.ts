import { meanAndSd } from "../../math/mean-and-sd.js";

/** Mean, mean size and spread of the distances across the axis. */
export interface AcrossSpread {
  readonly mean: number;
  readonly meanSize: number;
  readonly sd: number;
}

/** Over the samples, each counting the same; spread with n - 1. Needs a sample. */
export function spreadOfSamples(across: Float64Array): AcrossSpread {
  let sizes = 0;
  for (let i = 0; i < across.length; i++) sizes += Math.abs(across[i]!);
  return { ...meanAndSd(across), meanSize: sizes / across.length };
}

/**
 * Over the way, each stretch counting by its length: what ever denser samples placed evenly along the path would tend to. Between samples the distance changes
 * evenly, so that each stretch is an integral in closed form. Needs a path longer than 0.
 */
export function spreadOverPath(along: Float64Array, across: Float64Array): AcrossSpread {
  const n = across.length;
  let way = 0;
  let sum = 0;
  let sizes = 0;
  for (let i = 1; i < n; i++) {
    const a = across[i - 1]!;
    const b = across[i]!;
    const ds = step(along, across, i);
    way += ds;
    sum += (ds * (a + b)) / 2;
    // two triangles where the path crosses the axis, else a trapezium
    sizes += a * b < 0 ? (ds * (a * a + b * b)) / (2 * Math.abs(a - b)) : (ds * Math.abs(a + b)) / 2;
  }
  const mean = sum / way;
  let squares = 0;
  for (let i = 1; i < n; i++) {
    const a = across[i - 1]! - mean;
    const b = across[i]! - mean;
    squares += (step(along, across, i) * (a * a + a * b + b * b)) / 3;
  }
  return { mean, meanSize: sizes / way, sd: Math.sqrt(squares / way) };
}

function step(along: Float64Array, across: Float64Array, i: number): number {
  const dx = along[i]! - along[i - 1]!;
  const dy = across[i]! - across[i - 1]!;
  return Math.sqrt(dx * dx + dy * dy);
}
