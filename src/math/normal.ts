// The error function and the normal distribution, to about 1e-15 absolute and 1e-13 relative in the lower tail.
// Two classical expansions (recalled; checked against mathjs and SciPy figures in the tests): a series of positive terms near the
// centre, where nothing cancels, and a continued fraction in the tail, where the series would lose the small difference from 1.

/** 2/sqrt(pi), as a number: a bundler keeps what calls Math even where nothing needs it. */
const TWO_OVER_ROOT_PI = 1.1283791670955126;

/** From here on the continued fraction needs fewer steps than the series and keeps the relative accuracy of the tail. */
const TAIL_FROM = 2.2;

/** Error function: 2/sqrt(pi) times the integral of exp(-u^2) from 0 to `x`. */
export function erf(x: number): number {
  const a = Math.abs(x);
  if (a < TAIL_FROM) return centralErf(x);
  return x > 0 ? 1 - tailErfc(a) : tailErfc(a) - 1;
}

/** Complement 1 - erf(x), accurate also where it is tiny. */
export function erfc(x: number): number {
  if (x > TAIL_FROM) return tailErfc(x);
  return x < -TAIL_FROM ? 2 - tailErfc(-x) : 1 - centralErf(x);
}

/** Probability that a standard normal variable lies below `z`. */
export function normalCdf(z: number): number {
  return 0.5 * erfc(-z * Math.SQRT1_2);
}

/** Density of the standard normal distribution at `z`. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

// erf(x) = 2/sqrt(pi) exp(-x^2) (x + 2x^3/3 + 4x^5/15 + ...): each term is the one before times 2x^2/(2n + 1)
function centralErf(x: number): number {
  const square = x * x;
  let term = x;
  let sum = x;
  for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) {
    term *= (2 * square) / odd;
    sum += term;
  }
  return TWO_OVER_ROOT_PI * Math.exp(-square) * sum;
}

// erfc(x) = exp(-x^2)/sqrt(pi) / (x + (1/2)/(x + 1/(x + (3/2)/(x + 2/(x + ...))))), evaluated from a depth that has settled
function tailErfc(x: number): number {
  if (x > 27.3) return 0; // below the smallest number that a double can hold
  const depth = 12 + Math.ceil(260 / (x * x));
  let fraction = x;
  for (let k = depth; k >= 1; k--) fraction = x + k / 2 / fraction;
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * fraction);
}
