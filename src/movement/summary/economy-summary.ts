import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import { ratioEstimate } from "../../math/ratio-estimate.js";
import type { Economy, PathExcess } from "../row-parts.js";
import type { Acquisition } from "../types.js";

/** What a set of movements cost in path. */
export interface EconomySummary {
  /** Sum over the movements, in the space's unit. */
  readonly pathLength: number;
  /** Sum of the straight distances over the sum of the paths: how much of all path was needed. */
  readonly efficiency: Estimate;
  /** Median over the movements. */
  readonly medianEfficiency: Estimate;
  /** Path beyond need per acquisition, by phase: means, and `total` over all phases. */
  readonly excess: { readonly [phase in keyof PathExcess]: Estimate } & { readonly total: Estimate };
  readonly largestDeviation: Estimate;
  readonly meanDeviation: Estimate;
  /** Mean per acquisition. */
  readonly reversals: Estimate;
  /** Mean number of times a target that had been entered was entered again. */
  readonly reentries: Estimate;
  readonly spectralArcLength: Estimate;
  readonly logDimensionlessJerk: Estimate;
}

/** Summarises the economy of rows that moved and whose boundaries are sound. */
export function summarizeEconomy(moved: readonly Acquisition[], unit: string, level: number): EconomySummary {
  const all = moved.flatMap((row) => row.economy ?? []);
  const mean = (pick: (economy: Economy) => number | undefined, label: string): Estimate => meanEstimate(given(all, pick), label, level);
  const median = (pick: (economy: Economy) => number | undefined, label: string): Estimate =>
    medianEstimate(given(all, pick), label, level);
  const excess = ({ primary, correction, verification, recovery }: PathExcess): number => primary + correction + verification + recovery;
  return {
    pathLength: all.reduce((sum, economy) => sum + economy.pathLength, 0),
    efficiency: pooledEfficiency(all, level),
    medianEfficiency: median((economy) => economy.efficiency, "1"),
    excess: {
      primary: mean((economy) => economy.excess?.primary, unit),
      correction: mean((economy) => economy.excess?.correction, unit),
      verification: mean((economy) => economy.excess?.verification, unit),
      recovery: mean((economy) => economy.excess?.recovery, unit),
      total: mean((economy) => economy.excess && excess(economy.excess), unit),
    },
    largestDeviation: median((economy) => economy.largestDeviation, unit),
    meanDeviation: median((economy) => economy.meanDeviation, unit),
    reversals: mean((economy) => economy.reversals, "1"),
    reentries: mean((economy) => Math.max(0, economy.entries - 1), "1"),
    spectralArcLength: median((economy) => economy.spectralArcLength, "1"),
    logDimensionlessJerk: median((economy) => economy.logDimensionlessJerk, "1"),
  };
}

function given(all: readonly Economy[], pick: (economy: Economy) => number | undefined): number[] {
  return all.flatMap((economy) => pick(economy) ?? []);
}

/** All movements together: a long one counts by its length. */
function pooledEfficiency(all: readonly Economy[], level: number): Estimate {
  const units = all.flatMap(({ pathLength, efficiency }) =>
    efficiency === undefined ? [] : [{ part: pathLength * efficiency, whole: pathLength }],
  );
  return ratioEstimate(units, level);
}
