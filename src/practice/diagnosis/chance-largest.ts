import { createRandom, type Random } from "../../math/random.js";
import type { Part } from "../types.js";
import { ordinaryGap } from "./gap.js";
import { type Bar, type Burden, type Compared, partGap } from "./part-gaps.js";
import { PARTS } from "./row-excess.js";
import { partTotal, type UnitExcess } from "./unit-excess.js";

/**
 * Share of resamples in which each part cost most. Sessions of the person and units of the reference are drawn with replacement, each as often as there are.
 * A part no dearer than members of a group ordinarily are (own reference: no dearer than before) is no rival, since everybody has such parts; where that
 * leaves nobody, all are rivals. Cost O(resamples units).
 */
export function chanceLargest(
  compared: Compared,
  burden: Burden,
  bar: Bar,
  resamples: number,
  seed: number,
): Readonly<Record<Part, number>> {
  const wins: Record<Part, number> = { nextTarget: 0, primary: 0, correction: 0, stopAndPress: 0 };
  if (compared.now.length < 2 || compared.reference.length < 2) return wins;
  const unusual = PARTS.filter((part) => {
    const gap = partGap(compared, part, burden);
    return gap !== undefined && gap.value > ordinaryGap(gap, bar.tail);
  });
  const rivals = unusual.length > 0 ? unusual : PARTS;
  const random = createRandom(seed);
  const table = (units: readonly UnitExcess[]): number[][] => units.map((unit) => rivals.map((part) => partTotal(unit, part)));
  const [now, reference] = [table(compared.now), table(compared.reference)];
  const cost = new Float64Array(rivals.length);
  for (let k = 0; k < resamples; k++) {
    for (let p = 0; p < rivals.length; p++) cost[p] = 0 - burden[rivals[p]!].value;
    addDrawn(random, now, 1 / now.length, cost);
    addDrawn(random, reference, -1 / reference.length, cost);
    let largest = 0;
    for (let p = 1; p < cost.length; p++) if (cost[p]! > cost[largest]!) largest = p;
    wins[rivals[largest]!]++;
  }
  for (const part of PARTS) wins[part] /= resamples;
  return wins;
}

// as many units as there are, drawn with replacement, each added with this weight
function addDrawn(random: Random, units: readonly (readonly number[])[], weight: number, sum: Float64Array): void {
  for (let i = 0; i < units.length; i++) {
    const unit = random.pick(units);
    for (let p = 0; p < sum.length; p++) sum[p]! += weight * unit[p]!;
  }
}
