import type { LevelCounts } from "./level-counts.js";
import type { StandardShape } from "./shapes.js";

/** Most rounds of the search. */
const ROUNDS = 200;
/** Settled when a full step is shorter than this share of the standard errors, squared. */
const SETTLED = 1e-16;
/** Below this a gain of likelihood drowns in rounding: steps are taken unasked. */
const UNSEEN = 1e-10;
/** A share of hits nearer than this to 0 or 1 counts as that near. */
const TINY = 1e-300;
/** Damping past which no step helps any more. */
const STUCK = 1e12;

/** What is fitted: p = guess + (1 - guess - lapse) F(height + slope (u - centre)). */
export interface BinomialProblem {
  readonly counts: LevelCounts;
  readonly shape: StandardShape;
  readonly guess: number;
  readonly centre: number;
  /** Smallest and largest slope, and lapse; equal ends hold them fixed. */
  readonly slopes: readonly [number, number];
  readonly lapses: readonly [number, number];
  /** The height as a function of the lapse, with its derivative, where the curve has to pass through a point at `centre`; absent: free. */
  readonly height?: (lapse: number) => readonly [number, number];
}

/** The parameters of the search. */
export interface Curve {
  readonly height: number;
  readonly slope: number;
  readonly lapse: number;
}

/** The most likely curve, and the logarithm of its likelihood without the binomial coefficients. */
export interface FittedCurve extends Curve {
  readonly logLikelihood: number;
}

/** Score and expected information of height, slope and lapse, in the order of the triangle 00, 10, 11, 20, 21, 22. */
interface Pull {
  readonly score: Float64Array;
  readonly information: Float64Array;
}

/** Most likely curve from one start: Fisher's scoring, damped where a step would lose (Levenberg), within the bounds. */
export function maximizeFrom(problem: BinomialProblem, start: Curve): FittedCurve {
  let here = within(problem, start);
  let likelihood = logLikelihood(problem, here);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS; round++) {
    const pull = pullAt(problem, here);
    const free = freeAt(problem, here, pull.score);
    const whole = damped(pull, free, 0);
    if (whole !== undefined && whole.decrement < SETTLED) break;
    if (whole !== undefined && whole.decrement < UNSEEN) {
      here = within(problem, moved(here, whole.step));
      likelihood = logLikelihood(problem, here);
      continue;
    }
    let better = false;
    for (; damping < STUCK; damping = Math.max(10 * damping, 1e-6)) {
      const step = damped(pull, free, damping)?.step;
      if (step === undefined) continue;
      const tried = within(problem, moved(here, step));
      const next = logLikelihood(problem, tried);
      if (!(next > likelihood)) continue;
      better = true;
      here = tried;
      likelihood = next;
      damping = damping > 1e-9 ? damping / 10 : 0;
      break;
    }
    if (!better) break;
  }
  return { ...here, logLikelihood: likelihood };
}

/** The best of several starts. */
export function maximize(problem: BinomialProblem, starts: readonly Curve[]): FittedCurve {
  let best: FittedCurve | undefined;
  for (const start of starts) {
    const found = maximizeFrom(problem, start);
    if (best === undefined || found.logLikelihood > best.logLikelihood) best = found;
  }
  return best!;
}

/** Share of hits that a curve gives on the axis. */
export function shareAt({ shape, guess, centre }: BinomialProblem, { height, slope, lapse }: Curve, u: number): number {
  return guess + (1 - guess - lapse) * shape.below(height + slope * (u - centre));
}

/** Logarithm of the likelihood without the binomial coefficients. */
export function logLikelihood({ counts, shape, guess, centre }: BinomialProblem, { height, slope, lapse }: Curve): number {
  const { at, trials, hits } = counts;
  const room = 1 - guess - lapse;
  let sum = 0;
  for (let i = 0; i < at.length; i++) {
    const z = height + slope * (at[i]! - centre);
    const k = hits[i]!;
    if (k > 0) sum += k * Math.log(Math.max(guess + room * shape.below(z), TINY));
    if (k < trials[i]!) sum += (trials[i]! - k) * Math.log(Math.max(lapse + room * shape.above(z), TINY));
  }
  return sum;
}

/** Expected information of height, slope and lapse at a curve: full symmetric rows. */
export function informationAt(problem: BinomialProblem, curve: Curve): number[][] {
  const [a, b, c, d, e, f] = pullAt(problem, curve).information;
  return [
    [a!, b!, d!],
    [b!, c!, e!],
    [d!, e!, f!],
  ];
}

function pullAt({ counts, shape, guess, centre, height: tied }: BinomialProblem, { height, slope, lapse }: Curve): Pull {
  const { at, trials, hits } = counts;
  const room = 1 - guess - lapse;
  const tie = tied === undefined ? 0 : tied(lapse)[1];
  const score = new Float64Array(3);
  const information = new Float64Array(6);
  for (let i = 0; i < at.length; i++) {
    const along = at[i]! - centre;
    const z = height + slope * along;
    const below = shape.below(z);
    const above = shape.above(z);
    const p = guess + room * below;
    const variance = Math.max(p * (lapse + room * above), TINY);
    const growth = room * shape.density(z);
    const n = trials[i]!;
    // k - n p, written so that both sides keep their digits
    const left = hits[i]! * (lapse + room * above) - (n - hits[i]!) * p;
    const [h, s, l] = [growth, growth * along, growth * tie - below];
    const pull = left / variance;
    const weight = n / variance;
    score[0]! += pull * h;
    score[1]! += pull * s;
    score[2]! += pull * l;
    information[0]! += weight * h * h;
    information[1]! += weight * h * s;
    information[2]! += weight * s * s;
    information[3]! += weight * h * l;
    information[4]! += weight * s * l;
    information[5]! += weight * l * l;
  }
  return { score, information };
}

/** Which parameters may move: not a tied height, nor one that its bound holds. */
function freeAt({ slopes, lapses, height }: BinomialProblem, here: Curve, score: Float64Array): readonly boolean[] {
  const inside = (value: number, [low, high]: readonly [number, number], pull: number): boolean =>
    low < high && !(value <= low && pull <= 0) && !(value >= high && pull >= 0);
  return [height === undefined, inside(here.slope, slopes, score[1]!), inside(here.lapse, lapses, score[2]!)];
}

function moved({ height, slope, lapse }: Curve, step: Float64Array): Curve {
  return { height: height + step[0]!, slope: slope + step[1]!, lapse: lapse + step[2]! };
}

function within({ slopes, lapses, height }: BinomialProblem, curve: Curve): Curve {
  const lapse = Math.min(Math.max(curve.lapse, lapses[0]), lapses[1]);
  const slope = Math.min(Math.max(curve.slope, slopes[0]), slopes[1]);
  return { height: height === undefined ? curve.height : height(lapse)[0], slope, lapse };
}

/** The step (I + damping diag I)^-1 score of the free parameters, by Cholesky's triangle, and score times step; `undefined` where the data do not hold them. */
function damped(
  { score, information }: Pull,
  free: readonly boolean[],
  damping: number,
): { step: Float64Array; decrement: number } | undefined {
  const used = [0, 1, 2].filter((j) => free[j] === true && information[(j * (j + 3)) / 2]! > 0);
  const m = used.length;
  const triangle = new Float64Array(9);
  const forward = new Float64Array(3);
  for (let r = 0; r < m; r++) {
    for (let c = 0; c <= r; c++) {
      const [i, j] = [used[r]!, used[c]!];
      let sum = information[(i * (i + 1)) / 2 + j]! * (r === c ? 1 + damping : 1);
      const whole = sum;
      for (let k = 0; k < c; k++) sum -= triangle[3 * r + k]! * triangle[3 * c + k]!;
      if (r > c) triangle[3 * r + c] = sum / triangle[4 * c]!;
      else if (sum > 1e-13 * whole) triangle[4 * r] = Math.sqrt(sum);
      else return undefined;
    }
    let sum = score[used[r]!]!;
    for (let k = 0; k < r; k++) sum -= triangle[3 * r + k]! * forward[k]!;
    forward[r] = sum / triangle[4 * r]!;
  }
  let decrement = 0;
  for (let r = 0; r < m; r++) decrement += forward[r]! * forward[r]!;
  const step = new Float64Array(3);
  for (let r = m - 1; r >= 0; r--) {
    let sum = forward[r]!;
    for (let k = r + 1; k < m; k++) sum -= triangle[3 * k + r]! * step[used[k]!]!;
    step[used[r]!] = sum / triangle[4 * r]!;
  }
  return Number.isFinite(decrement) ? { step, decrement } : undefined;
}
