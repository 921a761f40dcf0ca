/** Beyond this the noise cannot be told from a wandering level. */
const LARGEST_CORRELATION = 0.9;
/** With fewer values there are not two differences of either kind. */
const FEWEST = 4;
/** Share of the differences that count, the smallest ones: steps make large ones. */
const KEPT = 0.9;
/** Mean square of the smallest 90 % of standard normal values: 1 - 2 z density(z)/0.9, z the value that 5 % exceed (closed form). */
const KEPT_SQUARE = 0.6230154841346838;

/** The noise of a series whose level may step or drift. */
export interface StepNoise {
  /** SD of the values about their level. */
  readonly sd: number;
  /** Autocorrelation of neighbours, 0 to 0.9: below 0 counts as 0. */
  readonly lagOne: number;
  /** n times the variance of the mean of n values, for large n: sd^2 (1 + r)/(1 - r). */
  readonly longRunVariance: number;
}

/**
 * Noise of a first-order autoregressive series, from the differences of values one and two places apart. Their variances are 2 sd^2 (1 - r)
 * and 2 sd^2 (1 - r^2), whose ratio is 1 + r (Chakar, Lebarbier, Levy-Leduc and Robin 2017, recalled); they are taken from the smallest
 * nine tenths of the differences, as of normal noise, so that up to one step in twenty values hardly counts. In short series r is noisy and
 * comes out high where it is low, since it is cut at 0. All 0 below four values or when all are equal.
 */
export function stepNoise(values: Float64Array): StepNoise {
  const one = trimmedSquare(differences(values, 1));
  const two = trimmedSquare(differences(values, 2));
  if (values.length < FEWEST || one === 0) return { sd: 0, lagOne: 0, longRunVariance: 0 };
  const lagOne = Math.max(0, Math.min(two / one - 1, LARGEST_CORRELATION));
  const variance = one / (2 * KEPT_SQUARE * (1 - lagOne));
  return { sd: Math.sqrt(variance), lagOne, longRunVariance: (variance * (1 + lagOne)) / (1 - lagOne) };
}

function differences(values: Float64Array, lag: number): Float64Array {
  return values.subarray(lag).map((value, i) => value - values[i]!);
}

/** Mean square of the smallest ones, or of all where those are 0. */
function trimmedSquare(values: Float64Array): number {
  const squares = values.map((value) => value * value).sort();
  return mean(squares.subarray(0, Math.ceil(KEPT * squares.length))) || mean(squares);
}

function mean(values: Float64Array): number {
  return values.length > 0 ? values.reduce((sum, value) => sum + value, 0) / values.length : 0;
}
