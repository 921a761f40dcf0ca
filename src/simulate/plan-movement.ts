import type { Random } from "../math/random.js";
import type { Bell } from "./compose-movement.js";
import type { SimulationSettings } from "./options.js";
import type { Sight } from "./sight.js";
import type { TrueComponent, Vector } from "./truth.js";

/** Each part of a lifted primary covers this share of it, and the lift takes this long, seconds. */
const FIRST_PART = [0.4, 0.6] as const;
const LIFT = [0.12, 0.3] as const;

/** What the hand is to do: all offsets in the frame of the target, one length unit. */
export interface Aim {
  /** From the hand's rest to the target's centre at onset. */
  readonly offset: Vector;
  readonly width: number;
  /** From the target's centre to where the primary aims instead; absent when it aims at the centre. */
  readonly pull?: Vector;
  readonly velocity: Vector;
  readonly onset: number;
  /** Lifts the device on the way. */
  readonly clutch: boolean;
}

/** The components of one movement up to its stop. */
export interface Plan {
  readonly components: TrueComponent[];
  readonly bell: Bell;
  readonly pure: boolean;
  readonly onset: number;
  /** End of the primary, and of its last part when there was a lift. */
  readonly primaryEnd: number;
  readonly reachEnd: number;
  readonly stop: number;
  /** Target centre to hand, after the first component and after the last. */
  readonly primaryError: Vector;
  readonly stopError: Vector;
  /** How late each correction's reason was seen. */
  readonly delays: readonly number[];
}

/**
 * Draws the primary and its corrections. A correction is planned on the error that remains once all components before it have ended, also
 * when it begins before that; it never begins before the component it follows. What it answers is seen late by the display's delay, so that it
 * begins later by as much.
 */
export function planMovement(random: Random, settings: SimulationSettings, { delayAt }: Pick<Sight, "delayAt">, aim: Aim): Plan {
  const { primary, correction } = settings;
  const { offset, velocity, width, pull } = aim;
  // where the primary aims: its noise and its time go by that
  const aimed = pull === undefined ? offset : { x: offset.x + pull.x, y: offset.y + pull.y };
  const pure = random.uniform() < correction.pureShare;
  const bell = random.pick(primary.bells);
  const amplitude = Math.sqrt(aimed.x * aimed.x + aimed.y * aimed.y);
  const pace = Math.exp(random.normal(0, primary.timeSd));
  const durationOf = (share: number): number =>
    (primary.timeIntercept + primary.timeSlope * Math.log2((share * amplitude) / width + 1)) * pace;
  const along = random.normal(primary.alongBias * amplitude, primary.alongSd * amplitude);
  const across = random.normal(0, primary.acrossSd * amplitude);
  const u = amplitude > 0 ? { x: aimed.x / amplitude, y: aimed.y / amplitude } : { x: 1, y: 0 };
  const missed = { x: along * u.x + across * u.y, y: along * u.y - across * u.x };
  const landing = pull === undefined ? missed : { x: missed.x + pull.x, y: missed.y + pull.y };
  const firstPart = aim.clutch ? random.uniform(FIRST_PART[0], FIRST_PART[1]) : 1;
  const lift = aim.clutch ? random.uniform(LIFT[0], LIFT[1]) : 0;

  const duration = durationOf(firstPart);
  // a moving target is caught up with: half of its way during the primary comes from getting up to its speed, the rest from the primary
  const wayX = offset.x + landing.x + 0.5 * velocity.x * duration;
  const wayY = offset.y + landing.y + 0.5 * velocity.y * duration;
  const primaryEnd = aim.onset + duration;
  const components: TrueComponent[] = [
    { role: "primary", onset: aim.onset, duration, dx: firstPart * wayX + 0, dy: firstPart * wayY + 0, bell },
  ];
  let last = components[0]!;
  if (aim.clutch) {
    last = {
      role: "reach",
      onset: primaryEnd + lift,
      duration: durationOf(1 - firstPart),
      dx: (1 - firstPart) * wayX + 0,
      dy: (1 - firstPart) * wayY + 0,
      bell,
    };
    components.push(last);
  }
  const reachEnd = last.onset + last.duration;
  const delays: number[] = [];
  let error: Vector = landing;
  for (let k = 0; k < correction.most && !pure; k++) {
    if (Math.sqrt(error.x * error.x + error.y * error.y) <= correction.toleranceShare * width) break;
    const due = Math.max(last.onset, last.onset + last.duration + random.uniform(correction.onset[0], correction.onset[1]));
    const delay = delayAt(due);
    delays.push(delay);
    last = correct(random, settings, error, due + delay, random.pick(correction.gains), "correction");
    components.push(last);
    error = { x: error.x + last.dx, y: error.y + last.dy };
  }
  const primaryError = aim.clutch ? { x: components[0]!.dx - offset.x, y: components[0]!.dy - offset.y } : landing;
  const stop = components.reduce((latest, c) => Math.max(latest, c.onset + c.duration), 0);
  return { components, bell, pure, onset: aim.onset, primaryEnd, reachEnd, stop, primaryError, stopError: error, delays };
}

/** One minimum-jerk stroke that removes about `gain` of `error`, with a sideways part. */
export function correct(
  random: Random,
  settings: SimulationSettings,
  error: Vector,
  onset: number,
  gain: number,
  role: "correction" | "recovery",
): TrueComponent {
  const { gainSd, directionSd, duration } = settings.correction;
  const actual = gain * Math.exp(random.normal(0, gainSd));
  const sideways = random.normal(0, directionSd);
  return {
    role,
    onset,
    duration: random.uniform(duration[0], duration[1]),
    // adding 0 turns a negative zero, which JSON cannot carry, into 0
    dx: -actual * error.x + sideways * error.y + 0,
    dy: -actual * error.y - sideways * error.x + 0,
    bell: "minimumJerk",
    gain: actual,
  };
}
