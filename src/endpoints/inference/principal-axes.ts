/** Principal axes of a covariance matrix of two variables. */
export interface PrincipalAxes {
  /** Variances along the axes, the larger one first. */
  readonly major: number;
  readonly minor: number;
  /** Direction of the larger one, degrees from +x toward +y, in (-90, 90]; `null` when both are equal. */
  readonly angle: number | null;
}

/** A difference of variances below this share of their sum is rounding: the ellipse is round. */
const ROUND = 1e-14;

/** Eigenvalues and direction of [[xx, xy], [xy, yy]]. */
export function principalAxes(xx: number, xy: number, yy: number): PrincipalAxes {
  const half = (xx + yy) / 2;
  const difference = (xx - yy) / 2;
  const radius = Math.sqrt(difference * difference + xy * xy);
  const major = half + radius;
  // the product of both is the determinant, which loses fewer digits than the difference
  const minor = major > 0 ? Math.max(0, (xx * yy - xy * xy) / major) : 0;
  if (radius <= ROUND * half) return { major, minor, angle: null };
  const angle = (Math.atan2(xy, difference) * 90) / Math.PI;
  return { major, minor, angle: angle <= -90 ? 90 : angle + 0 };
}
