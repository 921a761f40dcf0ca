// Exact minimum-jerk profiles for the tests, composed as the reference tables describe them.
import type { KinematicSegment } from "../../src/trace/uniform.js";

/** A minimum-jerk component as the reference tables write it. */
export interface Component {
  readonly onset: number;
  readonly duration: number;
  readonly amplitude: number;
  readonly directionDeg: number;
}

/** Position share and speed of the unit movement, written out once more so that the tests do not lean on the library. */
const place = (s: number): number => (s <= 0 ? 0 : s >= 1 ? 1 : 10 * s ** 3 - 15 * s ** 4 + 6 * s ** 5);
const rate = (s: number): number => (s <= 0 || s >= 1 ? 0 : 30 * s ** 2 - 60 * s ** 3 + 30 * s ** 4);

/** The exact profile of composed components: `n` samples at k / fs. */
export function compose(components: readonly Component[], fs: number, n: number): KinematicSegment {
  const [x, y, vx, vy, speed] = Array.from({ length: 5 }, () => new Float64Array(n)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let k = 0; k < n; k++) {
    for (const { onset, duration, amplitude, directionDeg } of components) {
      const s = (k / fs - onset) / duration;
      const angle = (directionDeg * Math.PI) / 180;
      x[k] += amplitude * Math.cos(angle) * place(s);
      y[k] += amplitude * Math.sin(angle) * place(s);
      vx[k] += (amplitude / duration) * Math.cos(angle) * rate(s);
      vy[k] += (amplitude / duration) * Math.sin(angle) * rate(s);
    }
    speed[k] = Math.sqrt(vx[k]! ** 2 + vy[k]! ** 2);
  }
  return { t0: 0, sampleRateHz: fs, x, y, vx, vy, speed };
}
