import { quadraticForm } from "../../math/quadratic-form.js";
import { hitShareAt, type Landing } from "../scatter/hit-share-at.js";
import { biasAt, scatterAt, scatterGradient, within } from "../scatter/scatter-laws.js";
import type { AxisLaw, PaceTarget, SpeedAccuracyLaw } from "../types.js";

/** The target that is aimed at, and how far away it is. */
export interface Aim {
  readonly amplitude: number;
  readonly width: number;
  readonly shape: PaceTarget;
}

/** What is known of how well one axis was fitted. */
export interface AxisErrors {
  readonly scatterCovariance: readonly (readonly number[])[];
  readonly biasCovariance: readonly (readonly number[])[];
}

/** Where endpoints land at movement time `t`. */
function landingAt(law: SpeedAccuracyLaw, aim: Aim, t: number): Landing {
  const one = (axis: AxisLaw): [number, number] => [
    biasAt(axis.bias, t, law.times),
    Math.max(0, scatterAt(axis.scatter, aim.amplitude, t)),
  ];
  const [along, alongSd] = one(law.along);
  if (law.across === undefined) return { along, alongSd };
  const [across, acrossSd] = one(law.across);
  return { along, alongSd, across, acrossSd };
}

/** Probability of a hit at movement time `t`. */
export function lawShare(law: SpeedAccuracyLaw, aim: Aim, t: number): number {
  return shareOf(landingAt(law, aim, t), aim);
}

/** The least scatter, as a share of the target, that the integral over its outline is asked for: nearer 0 the bias decides alone. */
const NONE = 1e-9;

function shareOf(landing: Landing, { shape, width }: Aim): number {
  const least = NONE * width;
  const { along, alongSd, across, acrossSd } = landing;
  return hitShareAt(
    {
      along,
      alongSd: Math.max(least, alongSd),
      ...(acrossSd === undefined ? {} : { across: across!, acrossSd: Math.max(least, acrossSd) }),
    },
    shape,
    width,
  );
}

/** Share of hits on the scale on which it follows the logarithm of the scatter: ln(-ln(1 - P)), for a round scatter ln(R^2/(2 s^2)). */
export function toScale(p: number): number {
  return Math.log(-Math.log1p(-p));
}

/**
 * Standard error of `toScale` of the share of hits at `t`, by the delta method over bias and scatter of both axes, which are independent.
 * `undefined` where the law has no scatter above 0 there.
 */
export function shareError(law: SpeedAccuracyLaw, errors: readonly AxisErrors[], aim: Aim, t: number): number | undefined {
  const landing = landingAt(law, aim, t);
  const axes = [law.along, ...(law.across === undefined ? [] : [law.across])];
  const centre = [landing.along, landing.alongSd, ...(law.across === undefined ? [] : [landing.across!, landing.acrossSd!])];
  if (!centre.every((value, k) => k % 2 === 0 || value > 0)) return undefined;
  const at = (values: readonly number[]): number => {
    const [along, alongSd, across, acrossSd] = values;
    return toScale(shareOf({ along: along!, alongSd: alongSd!, ...(acrossSd === undefined ? {} : { across: across!, acrossSd }) }, aim));
  };
  let variance = 0;
  for (const [k, axis] of axes.entries()) {
    const { scatterCovariance, biasCovariance } = errors[k]!;
    const z = axis.bias === undefined ? 0 : within(t, law.times) - axis.bias.at;
    const sizes = [
      quadraticForm(biasCovariance, [1, z]),
      quadraticForm(scatterCovariance, scatterGradient(axis.scatter, aim.amplitude, t)),
    ];
    for (const [part, size] of sizes.entries()) {
      const step = 0.02 * Math.min(Math.sqrt(size), part === 1 ? centre[2 * k + 1]! : Number.POSITIVE_INFINITY);
      if (!(step > 0)) continue;
      const moved = (by: number): number => at(centre.map((value, i) => (i === 2 * k + part ? value + by : value)));
      variance += size * ((moved(step) - moved(-step)) / (2 * step)) ** 2;
    }
  }
  return Number.isFinite(variance) ? Math.sqrt(variance) : undefined;
}
