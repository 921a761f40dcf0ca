/** Even steps of the look that finds the deepest dip. */
const STEPS = 12;
/** Share of the golden section that a step of it keeps. */
const GOLDEN = 0.381966011250105;
/** Most refinements; each golden step shortens the bracket by 0.382. */
const MOST = 60;

/** Where a function of one variable is least, and how little it is there. */
export interface Minimum {
  readonly at: number;
  readonly value: number;
}

/**
 * Least value of `f` on `[low, high]`: a look at 13 even places, then steps to the bottom of a parabola through three points, or of the golden section where those
 * do not serve (Brent 1973, recalled), about the lowest. `tolerance` is the width to which the place is found, no finer than 1e-8 of `high - low` makes sense.
 */
export function minimizeBetween(f: (x: number) => number, low: number, high: number, tolerance: number): Minimum {
  const step = (high - low) / STEPS;
  let lowest: Minimum = { at: low, value: f(low) };
  for (let k = 1; k <= STEPS; k++) {
    const at = k === STEPS ? high : low + k * step;
    const value = f(at);
    if (value < lowest.value) lowest = { at, value };
  }
  let a = Math.max(low, lowest.at - step);
  let b = Math.min(high, lowest.at + step);
  // best, second and third point so far
  let x = lowest;
  let w = lowest;
  let v = lowest;
  let move = 0;
  let moveBefore = 0;
  for (let k = 0; k < MOST; k++) {
    const middle = (a + b) / 2;
    if (Math.abs(x.at - middle) + (b - a) / 2 <= 2 * tolerance) break;
    const parabola = bottomOf(x, w, v);
    const last = moveBefore;
    moveBefore = move;
    if (Math.abs(parabola) < Math.abs(last) / 2 && x.at + parabola > a && x.at + parabola < b) move = parabola;
    else {
      moveBefore = x.at < middle ? b - x.at : a - x.at;
      move = GOLDEN * moveBefore;
    }
    const at = x.at + (Math.abs(move) >= tolerance ? move : Math.sign(move) * tolerance);
    const tried = { at, value: f(at) };
    if (tried.value <= x.value) {
      if (at >= x.at) a = x.at;
      else b = x.at;
      v = w;
      w = x;
      x = tried;
    } else {
      if (at < x.at) a = at;
      else b = at;
      if (tried.value <= w.value || w === x) {
        v = w;
        w = tried;
      } else if (tried.value <= v.value || v === x || v === w) v = tried;
    }
  }
  return x;
}

/** Way from `x` to the bottom of the parabola through three points; infinite where there is none. */
function bottomOf(x: Minimum, w: Minimum, v: Minimum): number {
  const r = (x.at - w.at) * (x.value - v.value);
  const q = (x.at - v.at) * (x.value - w.value);
  const denominator = 2 * (q - r);
  const way = -((x.at - v.at) * q - (x.at - w.at) * r) / denominator;
  return Number.isFinite(way) ? way : Number.POSITIVE_INFINITY;
}
