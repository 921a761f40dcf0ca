// Figures of lists of numbers, by their textbook formulas.

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function sd(values: readonly number[]): number {
  const centre = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1));
}

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

export function nineInTen(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(0.9 * values.length)]!;
}
