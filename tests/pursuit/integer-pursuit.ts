/** Whole numbers from -100 to 100 of a linear congruential generator. */
function congruential(start: number, n: number): number[] {
  let state = start;
  return Array.from({ length: n }, () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return (Math.floor(state / 65536) % 201) - 100;
  });
}

/** Sums of the last `m` values, those before the first counted as 0. */
function runningSum(values: readonly number[], m: number): number[] {
  return values.map((_, k) => values.slice(Math.max(0, k - m + 1), k + 1).reduce((all, value) => all + value, 0));
}

/** 4096 samples at 100 Hz of a target and of a pointer that follows it 12.25 samples later with gain 1 and noise; integers and quarters, free of rounding. */
export function integerPursuit(): { target: Float64Array; pointer: Float64Array } {
  const length = 4160;
  const q = runningSum(runningSum(congruential(12345, length), 8), 8);
  const noise = runningSum(congruential(67890, length), 3);
  const p = q.map((_, k) => (k < 13 ? 0 : 3 * q[k - 12]! + q[k - 13]!) + 40 * noise[k]!);
  return { target: Float64Array.from(q.slice(64)), pointer: Float64Array.from(p.slice(64), (value) => value / 4) };
}
