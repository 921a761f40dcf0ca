import { medianInPlace } from "../../math/median.js";
import { welchSquare } from "../../math/permutation-test.js";
import { type Distance, exchangeTest, signFlipTest } from "../../math/rearrangement-tests.js";
import type { RearrangementTest } from "./comparison.js";
import type { Sessions } from "./effect.js";

/** Up to so many arrangements all are counted. */
const MOST = 20000;

/**
 * Means by Welch's t, which stays right when the periods differ in length and in spread (for two of the same length it orders the arrangements as the plain
 * difference does); medians by their plain difference. Paired: the sum of the differences, or for a median of their signs (the sign test). `null` without any spread.
 */
export function rearrangeSessions(
  sessions: Sessions,
  centre: "mean" | "median",
  { permutations, seed }: { readonly permutations: number; readonly seed: number },
): RearrangementTest | null {
  const how = { most: MOST, draws: permutations, seed };
  const found =
    "differences" in sessions
      ? signFlipTest(sessions.differences, centre === "mean" ? sizeOfSum : sizeOfSigns, how)
      : exchangeTest(sessions.before, sessions.after, centre === "mean" ? welchSquare : distanceOfMedians, how);
  if (found === undefined) return null;
  return { ...found, arrangements: found.arrangements <= Number.MAX_SAFE_INTEGER ? found.arrangements : null };
}

const sizeOfSum: Distance = (values) => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return Math.abs(sum);
};

const sizeOfSigns: Distance = (values) => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.sign(values[i]!);
  return Math.abs(sum);
};

const distanceOfMedians: Distance = (values, k) => Math.abs(medianInPlace(values.slice(0, k)) - medianInPlace(values.slice(k)));
