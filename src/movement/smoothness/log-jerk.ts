/** What makes the jerk dimensionless: the largest speed, the largest acceleration, or the net displacement. */
export type JerkForm = "velocity" | "acceleration" | "amplitude";

/**
 * -ln(scale * integral of squared jerk) of the velocities `[start, end)`, jerk by second differences of each component, the integral as a sum over the
 * samples and the duration as their number, both by the sampling rate. `undefined` where nothing moves or no second difference exists.
 */
export function logJerk(
  vx: Float64Array,
  vy: Float64Array,
  start: number,
  end: number,
  sampleRateHz: number,
  form: JerkForm,
): number | undefined {
  const duration = (end - start) / sampleRateHz;
  let jerk = 0;
  let acceleration = 0;
  let speed = 0;
  let x = 0;
  let y = 0;
  for (let i = start; i < end; i++) {
    speed = Math.max(speed, vx[i]! * vx[i]! + vy[i]! * vy[i]!);
    if (i > start) {
      const ax = vx[i]! - vx[i - 1]!;
      const ay = vy[i]! - vy[i - 1]!;
      acceleration = Math.max(acceleration, ax * ax + ay * ay);
      x += (vx[i]! + vx[i - 1]!) / 2;
      y += (vy[i]! + vy[i - 1]!) / 2;
    }
    if (i > start + 1) {
      const jx = vx[i]! - 2 * vx[i - 1]! + vx[i - 2]!;
      const jy = vy[i]! - 2 * vy[i - 1]! + vy[i - 2]!;
      jerk += jx * jx + jy * jy;
    }
  }
  const integral = jerk * sampleRateHz ** 3;
  const scale = {
    velocity: duration ** 3 / speed,
    acceleration: duration / (acceleration * sampleRateHz ** 2),
    amplitude: (duration ** 5 * sampleRateHz ** 2) / (x * x + y * y),
  }[form];
  const dimensionless = scale * integral;
  return dimensionless > 0 && Number.isFinite(dimensionless) ? 0 - Math.log(dimensionless) : undefined;
}
