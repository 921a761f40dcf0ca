/** Largest distance between the values' distribution function and the uniform one, times sqrt(n) (Kolmogorov's statistic). */
export function kolmogorovUniform(values: readonly number[], low: number, high: number): number {
  const sorted = values.map((v) => (v - low) / (high - low)).sort((a, b) => a - b);
  const n = sorted.length;
  return sorted.reduce((most, v, i) => Math.max(most, Math.abs(v - i / n), Math.abs(v - (i + 1) / n)), 0) * Math.sqrt(n);
}
