/** The highest point of a correlation over lags. */
export interface LagPeak {
  /** Index of the highest entry. */
  readonly index: number;
  /** Where the parabola through it and its neighbours has its summit, as an index; `index` itself at an edge. */
  readonly refined: number;
  readonly height: number;
  readonly atEdge: boolean;
}

/** Of the highest hill, a second one this high, beyond a valley this deep, could be meant as well. */
const AS_HIGH = 0.9;
const VALLEY = 0.8;

/** The peak of a curve, refined by a parabola: k + (r[k-1] - r[k+1]) / (2 (r[k-1] - 2 r[k] + r[k+1])). */
export function lagPeak(curve: ArrayLike<number>): LagPeak {
  let index = 0;
  for (let k = 1; k < curve.length; k++) if (curve[k]! > curve[index]!) index = k;
  return peakAt(curve, index);
}

/** Peaks of hills that rise to 0.9 of the highest, each beyond a valley below 0.8 of it; that of the highest included, in order. */
export function rivalPeaks(curve: ArrayLike<number>): LagPeak[] {
  const { height } = lagPeak(curve);
  const rivals: LagPeak[] = [];
  if (!(height > 0)) return rivals;
  let best = -1;
  for (let k = 0; k <= curve.length; k++) {
    const value = k < curve.length ? curve[k]! : Number.NEGATIVE_INFINITY;
    if (value < VALLEY * height) {
      if (best >= 0) rivals.push(peakAt(curve, best));
      best = -1;
    } else if (value >= AS_HIGH * height && (best < 0 || value > curve[best]!)) best = k;
  }
  return rivals;
}

function peakAt(curve: ArrayLike<number>, index: number): LagPeak {
  const height = curve[index] ?? 0;
  const before = curve[index - 1];
  const after = curve[index + 1];
  if (before === undefined || after === undefined) return { index, refined: index, height, atEdge: true };
  const bend = before - 2 * height + after;
  const shift = bend < 0 ? (before - after) / (2 * bend) : 0;
  return { index, refined: index + shift, height, atEdge: false };
}
