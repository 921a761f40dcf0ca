import { simulateLearner } from "aimed-movement/simulate";

/** What everybody would do at level 1, at the usual pace. */
const ALONG_SD = 0.05;
const ACROSS_SD = 0.025;

/** The level of each part in every session of one person: the law of practice, and what is special about that day. */
export function levelsOf({ seed, sessions, parts }, days) {
  const names = Object.keys(parts);
  const courses = names.map((name, i) => {
    const learner = simulateLearner({
      seed: seed + i,
      sessions,
      days,
      trialsPerSession: 1,
      trialNoise: 0,
      curve: parts[name],
      sessionNoise: { sd: 0.02 },
    });
    return learner.series.value;
  });
  return Array.from({ length: sessions }, (_, j) => Object.fromEntries(names.map((name, i) => [name, courses[i][j]])));
}

/**
 * How a person with these levels points at a pace, a factor on the time that the first stroke takes. Its scatter is in proportion to the mean speed
 * of the stroke, s = k A/T: at a slower pace the stroke lands closer by as much as it takes longer. In a hurry fewer errors are corrected.
 */
export function habitsAt({ primary, correction, stopAndPress, nextTarget }, pace) {
  const hurry = Math.max(0, 1 / pace - 1);
  return {
    latency: { mu: 0.2 * nextTarget, sigma: 0.03, tau: 0.06 * nextTarget },
    primary: {
      timeIntercept: 0.12 * primary * pace,
      timeSlope: 0.05 * primary * pace,
      alongBias: -0.03 * primary,
      alongSd: (ALONG_SD * primary) / pace,
      acrossSd: (ACROSS_SD * primary) / pace,
    },
    correction: {
      pureShare: Math.min(0.2 + hurry, 1),
      toleranceShare: 0.4 + hurry / 2,
      gains: correction > 1.4 ? [0.6, 0.8, 1.4] : [0.8, 1, 1.2],
      duration: [0.1 * correction, 0.2 * correction],
      onset: [0.02 * correction, 0.16 * correction],
    },
    press: { delay: 0.08 * stopAndPress * pace, delaySd: 0.03 * stopAndPress, slipSd: 0.6 * stopAndPress },
  };
}
