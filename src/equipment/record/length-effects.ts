import type { Equipment } from "../../trace/types.js";
import type { EquipmentEffect } from "../types.js";

/** What the same length or turn becomes on the other equipment, in percent; only where both records tell it and it differs. Exact, hence without interval. */
export function lengthEffects(before: Equipment, after: Equipment): EquipmentEffect[] {
  const lengths: readonly (readonly [string, (equipment: Equipment) => number | undefined, string])[] = [
    ["lengthPx", ({ mmPerPx }) => inverse(mmPerPx), "the same length on the screen is another number of pixels"],
    [
      "visualAngle",
      ({ viewDistanceMm }) => inverse(viewDistanceMm),
      "the same length on the screen is another angle at the eye (small angles)",
    ],
    ["handDistance", turnPerHand, "the same turn of the view asks another distance of the hand"],
  ];
  return lengths.flatMap(([measure, of, reason]) => {
    const [first, second] = [of(before), of(after)];
    if (first === undefined || second === undefined || first === second) return [];
    return [{ measure, change: { ok: true, value: 100 * (second / first - 1), unit: "%", n: 2 }, reason } as const];
  });
}

function inverse(value: number | undefined): number | undefined {
  return value === undefined ? undefined : 1 / value;
}

/** Distance of the device per degree of the view, inches. */
function turnPerHand({ countsPerInch, degPerCount }: Equipment): number | undefined {
  return countsPerInch === undefined || degPerCount === undefined ? undefined : 1 / (countsPerInch * degPerCount);
}
