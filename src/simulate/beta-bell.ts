// Skewed speed bells in their own time s = (t - onset)/duration and unit amplitude: the densities of Beta(3,4), which peaks early at 0.4,
// and Beta(4,3), which peaks late at 0.6. Both are polynomials, so the covered share (the distribution function) is one as well.

/** Share of the amplitude covered at `s` by the early bell, whose speed is 60 s^2 (1-s)^3. */
export function earlyBellPosition(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s * s * s * (20 - s * (45 - s * (36 - 10 * s)));
}

/** Share of the amplitude covered at `s` by the late bell, whose speed is 60 s^3 (1-s)^2. */
export function lateBellPosition(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s * s * s * s * (15 - s * (24 - 10 * s));
}
