import type { StaircaseSettings } from "./staircase-state.js";

/** A chance that differs from one half by rounding alone. */
const EQUAL = 1e-12;

/** A step to harder in steps to easier: (1 - P)/P, P = target^inARow being the chance of a full row of hits. */
export function harderShare({ target, inARow }: Pick<StaircaseSettings, "target" | "inARow">): number {
  const row = target ** inARow;
  // equal steps come back to the same level to the last digit
  return Math.abs(row - 0.5) < EQUAL ? 1 : (1 - row) / row;
}

/** The level one step on, within the bounds, and whether a bound cut the step short. */
export function moveLevel(
  level: number,
  toward: "harder" | "easier",
  reversals: number,
  settings: StaircaseSettings,
): { readonly level: number; readonly cut: boolean } {
  const { harder, scale, steps, stepReversals, lowest, highest } = settings;
  const step = steps[Math.min(steps.length - 1, Math.floor(reversals / stepReversals))]!;
  const sign = (toward === "harder") === (harder === "up") ? 1 : -1;
  // on the way in, steps to harder are no smaller than those to easier: an easy start is soon left behind
  const share = toward === "easier" ? 1 : reversals === 0 ? Math.max(1, harderShare(settings)) : harderShare(settings);
  const next = scale === "log" ? level * Math.exp(sign * share * Math.log1p(step)) : level + sign * share * step;
  if (lowest !== null && next < lowest) return { level: lowest, cut: true };
  if (highest !== null && next > highest) return { level: highest, cut: true };
  return { level: next, cut: false };
}
