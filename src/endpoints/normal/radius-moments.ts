import type { PrincipalNormal } from "./principal-normal.js";

/** Mean and variance of the squared distance from the target's centre, in units of `scale` squared and to the fourth. */
export interface RadiusMoments {
  /** Length in which they are counted: the fourth powers can neither overflow nor vanish. 0 when everything lies on the centre. */
  readonly scale: number;
  /** Sum of the variances plus the squared bias. */
  readonly mean: number;
  /** 2 tr(S^2) + 4 b'S b. */
  readonly variance: number;
}

export function radiusMoments({ along, across, long, short }: PrincipalNormal): RadiusMoments {
  const scale = Math.max(long, Math.abs(along), Math.abs(across));
  if (scale === 0) return { scale, mean: 0, variance: 0 };
  const l = (long / scale) ** 2;
  const s = (short / scale) ** 2;
  const a = (along / scale) ** 2;
  const b = (across / scale) ** 2;
  return { scale, mean: l + s + a + b, variance: 2 * (l * l + s * s) + 4 * (a * l + b * s) };
}
