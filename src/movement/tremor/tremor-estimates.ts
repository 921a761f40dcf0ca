import type { Estimate, Reason } from "../../math/estimate.js";
import { jackknifeVariance } from "../../math/jackknife-variance.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { PooledSpectrum } from "./pooled-spectrum.js";
import { type TremorBand, tremorBand } from "./tremor-band.js";

/** The numbers of `holdTremor`. */
export interface TremorEstimates {
  readonly rms: Estimate;
  readonly peakHz: Estimate;
  readonly meanHz: Estimate;
  readonly bandShare: Estimate;
}

/** The band of a pooled spectrum; intervals by leaving out one group of windows each, of the size on its logarithm. */
export function tremorEstimates({ hz, density, without, windows: n }: PooledSpectrum, unit: string, level: number): TremorEstimates {
  const whole = tremorBand(hz, density);
  const parts = without.map((rest) => tremorBand(hz, rest));
  const groups = parts.length;
  const half = (whole: number, part: (band: TremorBand) => number): number => {
    const variance = jackknifeVariance(groups, whole, (g) => part(parts[g]!));
    return -studentQuantile((1 - level) / 2, groups - 1) * Math.sqrt(variance);
  };
  const around = (value: number, of: string, off: number): Estimate => ({
    ok: true,
    value,
    unit: of,
    n,
    ...(Number.isFinite(off) && { interval: [value - off, value + off] as const, level }),
  });
  const { rms, share, meanHz, peakHz } = whole;
  const spread = half(Math.log(rms), (band) => Math.log(band.rms));
  const width = half(share, (band) => band.share);
  return {
    rms: {
      ok: true,
      value: rms,
      unit,
      n,
      ...(Number.isFinite(spread) && { interval: [rms * Math.exp(-spread), rms * Math.exp(spread)] as const, level }),
    },
    // a peak that goes with a few of the windows is none
    peakHz:
      peakHz === undefined || parts.some((band) => band.peakHz === undefined)
        ? { ok: false, why: "notIdentified", unit: "Hz", n }
        : around(
            peakHz,
            "Hz",
            half(peakHz, (band) => band.peakHz!),
          ),
    meanHz: around(
      meanHz,
      "Hz",
      half(meanHz, (band) => band.meanHz),
    ),
    bandShare: {
      ok: true,
      value: share,
      unit: "1",
      n,
      ...(Number.isFinite(width) && { interval: [Math.max(0, share - width), Math.min(1, share + width)] as const, level }),
    },
  };
}

/** The same fields without numbers. */
export function withoutTremor(why: Reason, unit: string, n: number): TremorEstimates {
  const none = (of: string): Estimate => ({ ok: false, why, unit: of, n });
  return { rms: none(unit), peakHz: none("Hz"), meanHz: none("Hz"), bandShare: none("1") };
}
