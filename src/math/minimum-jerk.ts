// The minimum-jerk movement in its own time s = (t - onset)/duration and unit amplitude: the rest-to-rest path of least integrated
// squared jerk, x = 10 s^3 - 15 s^4 + 6 s^5 (Flash and Hogan 1985, recalled; the derivatives follow). Outside 0..1 it rests.

/** Share of the amplitude covered at `s`. */
export function minimumJerkPosition(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s * s * s * (10 - 15 * s + 6 * s * s);
}

/** Speed at `s`, in amplitudes per duration; its peak is 1.875 at 0.5. */
export function minimumJerkSpeed(s: number): number {
  return s <= 0 || s >= 1 ? 0 : 30 * s * s * (1 - s) * (1 - s);
}
