// Sums without rounding: a sum is kept as a few doubles that add up to it exactly, so that the order of its terms, and how they were shared out, leaves no trace.

/**
 * Adds `value` to the sum that `parts` hold, in place; smallest part first, none 0, none overlapping another (Shewchuk 1997, recalled). Exact as long as
 * nothing overflows.
 */
export function addExactly(parts: number[], value: number): void {
  let sum = value;
  let kept = 0;
  for (let i = 0; i < parts.length; i++) {
    const part = parts[i]!;
    const next = sum + part;
    const taken = next - sum;
    const lost = sum - (next - taken) + (part - taken);
    if (lost !== 0) parts[kept++] = lost;
    sum = next;
  }
  if (sum !== 0) parts[kept++] = sum;
  parts.length = kept;
}

/** Adds a product to the sum that `parts` hold: its rounded value and what rounding took off (Dekker 1971, recalled). Exact for factors between 1e-140 and 1e140 in size. */
export function addProductExactly(parts: number[], a: number, b: number): void {
  const product = a * b;
  const aHigh = upperHalf(a);
  const aLow = a - aHigh;
  const bHigh = upperHalf(b);
  const bLow = b - bHigh;
  addExactly(parts, aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow));
  addExactly(parts, product);
}

/**
 * The same sum in the one form that depends on its value alone: the sum rounded to a double, what that leaves rounded to a double, and so on; largest first.
 * Empty for 0.
 */
export function canonicalParts(parts: readonly number[]): number[] {
  const rest = [...parts];
  const canonical: number[] = [];
  while (rest.length > 0) {
    const top = rounded(rest);
    canonical.push(top);
    addExactly(rest, -top);
  }
  return canonical;
}

/** The sum over `n`, the remainder of the first division divided, too: of equal values it is that value. `parts` in canonical form. */
export function exactMean(n: number, parts: readonly number[]): number {
  const mean = (parts[0] ?? 0) / n;
  const rest: number[] = [];
  for (const part of parts) addExactly(rest, part);
  addProductExactly(rest, -mean, n);
  return mean + (canonicalParts(rest)[0] ?? 0) / n;
}

/** The leading 26 bits. */
function upperHalf(value: number): number {
  const spread = 134217729 * value; // 2^27 + 1
  return spread - (spread - value);
}

/** The double nearest to the sum; a tie goes the way of the parts below it. */
function rounded(parts: readonly number[]): number {
  let at = parts.length - 1;
  let sum = parts[at]!;
  let rest = 0;
  while (at > 0 && rest === 0) {
    const before = sum;
    const part = parts[--at]!;
    sum = before + part;
    rest = part - (sum - before);
  }
  if (at > 0 && rest !== 0 && Math.sign(rest) === Math.sign(parts[at - 1]!)) {
    const up = sum + 2 * rest;
    if (up - sum === 2 * rest) return up;
  }
  return sum;
}
