import type { Estimate } from "../../math/estimate.js";
import { linearRegression } from "../../math/linear-regression.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** Movements of the device beside those of the pointer, as equally long columns: lengths of single strokes, or of stretches of them. */
export interface MeasuredGain {
  /** Distance the device moved, above 0: counts, or mm. */
  readonly device: ArrayLike<number>;
  /** Distance the pointer moved meanwhile, above 0. */
  readonly pointer: ArrayLike<number>;
  /** How long it took, seconds, above 0. */
  readonly duration: ArrayLike<number>;
}

/** Gain at one speed of the device. */
export interface GainPoint {
  /** Device units per second: geometric mean of the class. */
  readonly speed: number;
  /** Pointer units per device unit: geometric mean of the class. */
  readonly gain: number;
  readonly n: number;
}

/** Gain as measured. */
export interface GainCurve {
  /** Up to five classes of equal number, slowest first. */
  readonly points: readonly GainPoint[];
  /** Power of speed that gain grows with: 0 for a constant gain, above 0 for acceleration. */
  readonly exponent: Estimate;
  /** Whether gain is the same at every speed: the whole interval of the exponent lies within 0.02 of 0; `null` when it cannot be told. */
  readonly constant: boolean | null;
}

const LEAST = 10;
const CLASSES = 5;
/** An exponent within this of 0 changes gain by under 5 % over a tenfold range of speed. A choice. */
const NEGLIGIBLE = 0.02;

/** Gain against speed: the slope of log gain on log speed, and means in classes of speed. Cost O(n log n). */
export function gainCurve({ device, pointer, duration }: MeasuredGain, level: number): GainCurve {
  const moves = Array.from(device, (d, i) => ({ speed: Math.log(d / duration[i]!), gain: Math.log(pointer[i]! / d) })).sort(
    (a, b) => a.speed - b.speed,
  );
  const exponent = exponentOf(moves, level);
  return { points: pointsOf(moves), exponent, constant: constantOf(exponent) };
}

type Move = { readonly speed: number; readonly gain: number };

function exponentOf(moves: readonly Move[], level: number): Estimate {
  const n = moves.length;
  if (n < LEAST) return { ok: false, why: "tooFew", unit: "1", n };
  const fit = linearRegression(
    [moves.map(({ speed }) => speed)],
    Float64Array.from(moves, ({ gain }) => gain),
  );
  if (fit === undefined) return { ok: false, why: "noSpread", unit: "1", n };
  const value = fit.coefficients[1]!;
  const half = -studentQuantile((1 - level) / 2, fit.df) * fit.standardErrors[1]!;
  return { ok: true, value, unit: "1", n, interval: [value - half, value + half], level };
}

function pointsOf(moves: readonly Move[]): GainPoint[] {
  const classes = Math.min(CLASSES, moves.length);
  return Array.from({ length: classes }, (_, k) => {
    const some = moves.slice(Math.floor((k * moves.length) / classes), Math.floor(((k + 1) * moves.length) / classes));
    const middle = (of: keyof Move): number => Math.exp(meanAndSd(some.map((move) => move[of])).mean);
    return { speed: middle("speed"), gain: middle("gain"), n: some.length };
  });
}

function constantOf(exponent: Estimate): boolean | null {
  if (!exponent.ok) return null;
  const [low, high] = exponent.interval!;
  if (low >= -NEGLIGIBLE && high <= NEGLIGIBLE) return true;
  return low > NEGLIGIBLE || high < -NEGLIGIBLE ? false : null;
}
