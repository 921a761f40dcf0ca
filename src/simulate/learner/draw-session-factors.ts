import { createRandom } from "../../math/random.js";
import type { LearnerSettings } from "./options.js";

/** Standard deviation of the logarithm of a log-normal factor with mean 1 and standard deviation `sd`: sqrt(ln(1 + sd^2)). */
export function logSd(sd: number): number {
  return Math.sqrt(Math.log1p(sd * sd));
}

/** The log-normal factor of each session; its logarithms follow an AR(1) that begins in its stationary state. */
export function drawSessionFactors({ seed, sessions, sessionNoise }: LearnerSettings): number[] {
  const random = createRandom(seed, 0);
  const sigma = logSd(sessionNoise.sd);
  const r = sessionNoise.autocorrelation;
  const fresh = Math.sqrt(1 - r * r);
  let z = 0;
  return Array.from({ length: sessions }, (_, j) => {
    const draw = random.normal();
    z = j === 0 ? draw : r * z + fresh * draw;
    return Math.exp(sigma * z - (sigma * sigma) / 2);
  });
}

/** Warm-up of each session as a share of the level. */
export function drawWarmUps({ seed, sessions, warmUp }: LearnerSettings): number[] {
  const random = createRandom(seed, 1);
  return Array.from({ length: sessions }, () => warmUp.size + warmUp.sizeSd * random.normal());
}
