import { insideCircle } from "../../endpoints/normal/inside-circle.js";
import { principalNormal } from "../../endpoints/normal/principal-normal.js";
import { normalCdf } from "../../math/normal.js";
import type { PaceTarget } from "../types.js";

/** Where endpoints land: bias and standard deviation on both axes; the second is absent where hits depend on the first alone. */
export interface Landing {
  readonly along: number;
  readonly alongSd: number;
  readonly across?: number;
  readonly acrossSd?: number;
}

/** Probability that a normal endpoint lies on a target of extent `width`, by the integral over its whole outline. */
export function hitShareAt({ along, alongSd, across = 0, acrossSd = 0 }: Landing, target: PaceTarget, width: number): number {
  const half = width / 2;
  if (target === "strip") return normalCdf((half - along) / alongSd) - normalCdf((-half - along) / alongSd);
  if (target === "square") {
    const other = normalCdf((half - across) / acrossSd) - normalCdf((-half - across) / acrossSd);
    return other * (normalCdf((half - along) / alongSd) - normalCdf((-half - along) / alongSd));
  }
  return insideCircle(principalNormal([along, across], (alongSd / half) ** 2, 0, (acrossSd / half) ** 2, half), half).lower;
}
