import { principalAxes } from "../inference/principal-axes.js";

/** A normal distribution of endpoints in the frame of its own axes, where both coordinates are independent. */
export interface PrincipalNormal {
  /** Mean endpoint minus target centre, along the longer and along the shorter axis. */
  readonly along: number;
  readonly across: number;
  /** Standard deviations along the axes, the longer one first; 0 where there is no spread. */
  readonly long: number;
  readonly short: number;
  /** Direction of the longer axis in the frame of the endpoints. */
  readonly cos: number;
  readonly sin: number;
}

/** Mean and covariance in the frame of the axes; variances and covariance are counted in `scale` squared. */
export function principalNormal(mean: readonly [number, number], xx: number, xy: number, yy: number, scale: number): PrincipalNormal {
  const { major, minor, angle } = principalAxes(xx, xy, yy);
  // a right angle is written out: its cosine would come out as a rounding error, which a narrow scatter magnifies
  const cos = angle === 90 ? 0 : Math.cos(((angle ?? 0) * Math.PI) / 180);
  const sin = angle === 90 ? 1 : Math.sin(((angle ?? 0) * Math.PI) / 180);
  return {
    along: mean[0] * cos + mean[1] * sin,
    across: mean[1] * cos - mean[0] * sin,
    long: scale * Math.sqrt(major),
    short: scale * Math.sqrt(minor),
    cos,
    sin,
  };
}

/** The same scatter about the target's centre instead of its own mean. */
export function withoutBias(normal: PrincipalNormal): PrincipalNormal {
  return { ...normal, along: 0, across: 0 };
}

/** The same scatter with both standard deviations times `factor`. */
export function withSpread(normal: PrincipalNormal, factor: number): PrincipalNormal {
  return { ...normal, long: normal.long * factor, short: normal.short * factor };
}

/** The same in another unit of length: every length times `factor`. */
export function inUnit(normal: PrincipalNormal, factor: number): PrincipalNormal {
  const { along, across, long, short } = normal;
  return { ...normal, along: along * factor, across: across * factor, long: long * factor, short: short * factor };
}
