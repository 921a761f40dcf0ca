/** A square of lengths beyond the range of numbers comes out as the largest one. */
export function finite(value: number): number {
  return Math.max(-Number.MAX_VALUE, Math.min(Number.MAX_VALUE, value));
}
