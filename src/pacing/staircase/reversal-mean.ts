import type { Estimate } from "../../math/estimate.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import type { StaircaseState } from "./staircase-state.js";

/** Fewest reversals for a mean: two pairs. */
const FEWEST = 4;

/** The mean of the later reversals, how many there were, and the bound that forbids it. */
export interface ReversalMean {
  readonly estimate: Estimate;
  readonly used: number;
  readonly bound: "lowest" | "highest" | null;
}

/** Mean of an even number of reversals after the first `discard`, geometric on the log scale. */
export function reversalMean(state: StaircaseState, discard: number, unit: string): ReversalMean {
  const { settings, reversals, cut, levels } = state;
  const left = reversals.slice(discard);
  const even = left.slice(left.length % 2);
  const used = even.length;
  const from = even[0]?.trial ?? left[0]?.trial ?? levels.length;
  // a staircase that ran into a bound may never have turned there: all it has done since the way in counts
  const stretch = used >= FEWEST ? from : 0;
  const last = cut.filter((trial) => trial >= stretch).at(-1);
  const bound = last === undefined ? null : boundAt(state, last);
  if (bound !== null) return { estimate: { ok: false, why: "outOfReach", unit, n: used }, used, bound };
  if (used < FEWEST) return { estimate: { ok: false, why: "tooFew", unit, n: used }, used, bound };
  const log = settings.scale === "log";
  const at = even.map((reversal) => (log ? Math.log(reversal.level) : reversal.level));
  const { mean } = meanAndSd(at);
  return { estimate: { ok: true, value: log ? Math.exp(mean) : mean, unit, n: used }, used, bound };
}

/** The bound at which the trial after `trial` was shown. */
function boundAt({ settings, levels, level }: StaircaseState, trial: number): "lowest" | "highest" {
  return (levels[trial + 1] ?? level) === settings.lowest ? "lowest" : "highest";
}
