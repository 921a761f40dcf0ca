import type { Acquisition } from "../../movement/types.js";

/** Longest rest between two submovements that began off the target and came before the first press, seconds; 0 when there is none, and on a lifted device. */
export function longestPause({ submovements, corrections, flags, times }: Acquisition): number {
  if (flags.includes("clutch")) return 0;
  const onTarget = new Set(corrections.filter(({ errorBefore }) => errorBefore.inside).map(({ start }) => start));
  let longest = 0;
  for (let i = 1; i < submovements.length; i++) {
    const { start } = submovements[i]!;
    if (onTarget.has(start) || (times.press !== undefined && start > times.press)) continue;
    longest = Math.max(longest, start - submovements[i - 1]!.end);
  }
  return longest;
}
