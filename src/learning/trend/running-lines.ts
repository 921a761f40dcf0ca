/** Straight lines through the first values of a list, one more at each entry: entry k is of the values 0..k. */
export interface RunningLines {
  /** Mean of x, and of y. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Sums of the squared deviations of x and y from their means, and of their products. */
  readonly xx: Float64Array;
  readonly xy: Float64Array;
  readonly yy: Float64Array;
}

/**
 * Least-squares lines of ever more values, each sum brought forward by one deviation, so that a common offset costs no digits (Welford,
 * recalled). O(n).
 */
export function runningLines(x: Float64Array, y: Float64Array): RunningLines {
  const n = x.length;
  const lines = {
    x: new Float64Array(n),
    y: new Float64Array(n),
    xx: new Float64Array(n),
    xy: new Float64Array(n),
    yy: new Float64Array(n),
  };
  let meanX = 0;
  let meanY = 0;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let i = 0; i < n; i++) {
    const stepX = x[i]! - meanX;
    const stepY = y[i]! - meanY;
    meanX += stepX / (i + 1);
    meanY += stepY / (i + 1);
    xx += stepX * (x[i]! - meanX);
    xy += stepX * (y[i]! - meanY);
    yy += stepY * (y[i]! - meanY);
    lines.x[i] = meanX;
    lines.y[i] = meanY;
    lines.xx[i] = xx;
    lines.xy[i] = xy;
    lines.yy[i] = yy;
  }
  return lines;
}
