import { heldWithin, offsetFrom } from "./frame.js";
import { correct, planMovement } from "./plan-movement.js";
import type { Approach, Course, DrawnMovement, DrawnPress, DrawnTarget, World } from "./schedule.js";
import type { Vector } from "./truth.js";

// Times that no option changes, seconds
const TIME_LIMIT = 3;
const REST_BEFORE_TIMEOUT = 0.3;
const ANTICIPATION = [0.02, 0.15] as const;
const LATENCY_OF_RETRY = [0.1, 0.25] as const;
const SLOW_DOWN = 0.1;
const SHORTEST_PRESS = 0.02;

/** Draws one acquisition, adds its strokes to the world and moves the hand. */
export function drawAcquisition(world: World, target: DrawnTarget, go: number, course: Course, approach: Approach): DrawnMovement {
  const { random, settings, hand, sight } = world;
  const start = { x: hand.x, y: hand.y };
  const response = Math.max(0, random.normal(settings.latency.mu, settings.latency.sigma) + random.exponential(settings.latency.tau));
  // only what is not in view yet has to be waited for
  const unseen = Math.max(0, target.shown + sight.delayAt(target.shown) - go);
  if (course === "noMovement") {
    const press = drawPress(world, target, go + unseen + response + verification(world));
    return { target, approach, go, start, presses: [press], end: press.t, delays: { target: unseen, corrections: [] } };
  }
  const anticipation = random.uniform(ANTICIPATION[0], ANTICIPATION[1]);
  const lead = course === "anticipation" ? anticipation : approach.lead;
  const onset = Math.max(hand.stop, lead === undefined ? go + unseen + response + approach.delay : go - lead);
  const fromCentre = offsetFrom(world.frame, centreAt(target, onset), start);
  const plan = planMovement(random, settings, sight, {
    offset: { x: -fromCentre.x, y: -fromCentre.y },
    width: target.width,
    ...pullOf(world, target, approach, onset),
    velocity: { x: target.velocity.x / world.frame.stretch(target.centre.y), y: target.velocity.y },
    onset,
    clutch: course === "clutch",
  });
  for (const { dx, dy, ...timing } of plan.components) move(world, target, { x: dx, y: dy }, timing);
  hand.stop = plan.stop;
  const delays = { ...(lead === undefined && { target: unseen }), corrections: plan.delays };
  if (course === "timeout") {
    const end = Math.max(go + TIME_LIMIT, plan.stop + REST_BEFORE_TIMEOUT);
    follow(world, target, onset, plan.primaryEnd, end);
    return { target, approach, go, start, plan, presses: [], end, delays };
  }
  const early = random.uniform() < settings.press.earlyShare;
  const delay = verification(world);
  const stop = sight.delayAt(plan.stop);
  const first = drawPress(world, target, early ? Math.max(onset, plan.stop - settings.press.earlyLead) : plan.stop + stop + delay);
  const retries = random.uniform() < settings.cases.retry;
  if (early || !retries || !clearlyMissed(world, target, first.t, plan.stopError)) {
    follow(world, target, onset, plan.primaryEnd, first.t);
    const seen = { ...delays, ...(!early && { stop }) };
    return { target, approach, go, start, plan, presses: [first], end: first.t, delays: seen };
  }
  const error = { x: plan.stopError.x + first.slip.x, y: plan.stopError.y + first.slip.y };
  const due = first.tUp + random.uniform(LATENCY_OF_RETRY[0], LATENCY_OF_RETRY[1]);
  const late = sight.delayAt(due);
  const recovery = correct(random, settings, error, due + late, 1, "recovery");
  move(world, target, { x: recovery.dx, y: recovery.dy }, recovery);
  hand.stop = recovery.onset + recovery.duration;
  const again = sight.delayAt(hand.stop);
  const second = drawPress(world, target, hand.stop + again + verification(world));
  follow(world, target, onset, plan.primaryEnd, second.t);
  return {
    target,
    approach,
    go,
    start,
    plan,
    recovery,
    presses: [first, second],
    end: second.t,
    delays: { ...delays, corrections: [...delays.corrections, late], stop: again },
  };
}

/** Centre of `target` at `t`. */
export function centreAt({ centre, velocity, shown }: DrawnTarget, t: number): Vector {
  return { x: centre.x + velocity.x * (t - shown), y: centre.y + velocity.y * (t - shown) };
}

/** How far the aim is pulled, in the tangent plane at the target. */
function pullOf({ frame, settings }: World, target: DrawnTarget, { toward }: Approach, t: number): { pull?: Vector } {
  if (toward === undefined) return {};
  const { x, y } = offsetFrom(frame, centreAt(target, t), centreAt(toward, t));
  return { pull: { x: settings.planning.pull * x, y: settings.planning.pull * y } };
}

function verification({ random, settings }: World): number {
  return Math.max(0, random.normal(settings.press.delay, settings.press.delaySd));
}

function drawPress(world: World, target: DrawnTarget, t: number): DrawnPress {
  const { random, settings, frame } = world;
  const { duration, durationSd, slipSd } = settings.press;
  const held = Math.max(SHORTEST_PRESS, random.normal(duration, durationSd));
  const slip = { x: random.normal(0, slipSd * frame.scale), y: random.normal(0, slipSd * frame.scale) };
  move(world, target, slip, { onset: t, duration: held, bell: "minimumJerk" });
  return { t, tUp: t + held, slip };
}

/** Whether the pointer, resting at `error` from the centre, is outside by more than rounding and tremor could undo. */
function clearlyMissed({ settings, frame }: World, target: DrawnTarget, t: number, error: Vector): boolean {
  const centre = centreAt(target, t);
  const pointer = heldWithin(frame, { x: centre.x + error.x * frame.stretch(centre.y), y: centre.y + error.y });
  const { x, y } = offsetFrom(frame, centre, pointer);
  const margin = 2 * (settings.recorder.quantum + settings.tremorAmplitude) * frame.scale;
  return Math.sqrt(x * x + y * y) > target.width / 2 + margin;
}

/** Adds what keeps the hand on a moving target: up to its speed during the primary, along with it to `end`, and then to rest. */
function follow(world: World, target: DrawnTarget, onset: number, primaryEnd: number, end: number): void {
  const { x, y } = target.velocity;
  if (x === 0 && y === 0) return;
  const along = (time: number): Vector => ({ x: x * time, y: y * time });
  const until = Math.max(primaryEnd, end);
  move(world, undefined, along((primaryEnd - onset) / 2), { onset, duration: primaryEnd - onset, bell: "speedUp" });
  move(world, undefined, along(until - primaryEnd), { onset: primaryEnd, duration: until - primaryEnd, bell: "steady" });
  move(world, undefined, along(SLOW_DOWN / 2), { onset: until, duration: SLOW_DOWN, bell: "slowDown" });
}

/** Adds a displacement: in the tangent plane at `target`, or as it is without one. */
function move(
  { strokes, hand, frame }: World,
  target: DrawnTarget | undefined,
  by: Vector,
  timing: Pick<World["strokes"][number], "onset" | "duration" | "bell">,
): void {
  const stretch = target === undefined ? 1 : frame.stretch(target.centre.y);
  strokes.push({ onset: timing.onset, duration: timing.duration, bell: timing.bell, dx: by.x * stretch, dy: by.y });
  hand.x += by.x * stretch;
  hand.y += by.y;
  hand.field = { x: hand.field.x + by.x / frame.scale, y: hand.field.y + by.y / frame.scale };
}
