import { createRandom, type Random } from "../math/random.js";
import { drawAcquisition } from "./draw-acquisition.js";
import { frameOf } from "./frame.js";
import type { CaseShares, SimulationSettings } from "./options.js";
import { type Disc, placeTarget } from "./place-target.js";
import { approachTo, visitingOrder } from "./plan-sequence.js";
import type { Course, DrawnMovement, DrawnTarget, DrawnTrial, World } from "./schedule.js";
import { sightOf } from "./sight.js";
import { nextSpell } from "./tremor.js";
import type { Vector } from "./truth.js";

/** Time of the first target, seconds. */
const FIRST_GO = 0.5;
/** Range of the tremor's frequency. */
const TREMOR_HZ = [8, 11] as const;
/** When the hand sets out for the middle of the field after a trial with a layout, and how long it takes, seconds. */
const RETURN_AFTER = 0.15;
const RETURN_TIME = 0.5;
/** The stream that planning draws from; 0 draws the movements, 1 the samples. */
const PLANNING_STREAM = 2;
/** Farthest from the hand that a target which needs no movement appears, in widths. */
const UNDER_POINTER = 0.25;

/** Draws all trials; the world returned holds the strokes, sorted by onset, and the tremor. */
export function drawSchedule(where: string, random: Random, settings: SimulationSettings): { world: World; trials: DrawnTrial[] } {
  const frame = frameOf(settings);
  const phases = { phaseX: random.uniform(0, 2 * Math.PI), phaseY: random.uniform(0, 2 * Math.PI) };
  const world: World = {
    where,
    random,
    planner: createRandom(settings.seed, PLANNING_STREAM),
    layouts: [],
    settings,
    frame,
    sight: sightOf(settings.seed, settings.display),
    strokes: [],
    spells: [{ t: 0, frequency: random.uniform(TREMOR_HZ[0], TREMOR_HZ[1]), ...phases }],
    hand: { ...frame.middle, field: { x: 0, y: 0 }, stop: 0 },
  };
  const trials: DrawnTrial[] = [];
  let clock = FIRST_GO;
  for (let made = 0; made < settings.movements; ) {
    world.spells.push(nextSpell(world.spells[world.spells.length - 1]!, clock, random.uniform(TREMOR_HZ[0], TREMOR_HZ[1])));
    const trial = drawTrial(world, trials.length, clock, settings.movements - made);
    trials.push(trial);
    made += trial.movements.length;
    clock =
      (trial.layout === undefined ? trial.tEnd : returnToMiddle(world, trial.tEnd)) + random.uniform(settings.pause[0], settings.pause[1]);
  }
  world.strokes.sort((a, b) => a.onset - b.onset);
  return { world, trials };
}

/** The trial with this number from 0, at `tStart` and with at most `most` targets; a timeout ends it with the rest of its targets untried. */
function drawTrial(world: World, number: number, tStart: number, most: number): DrawnTrial {
  const { sequence, cases, planning } = world.settings;
  const layout = sequence !== 0 && planning.layouts > 0 ? number % planning.layouts : undefined;
  const known = layout === undefined ? undefined : world.layouts[layout];
  const drawn = typeof sequence === "number" ? Math.max(sequence, 1) : world.planner.pick(sequence);
  const count = Math.min(known?.length ?? drawn, most);
  const courses = Array.from({ length: count }, () => drawCourse(world.random.uniform(), cases));
  const targets =
    known?.slice(0, count).map((target) => ({ ...target, shown: tStart })) ??
    drawTargets(world, tStart, count, courses[0] === "noMovement");
  if (layout !== undefined && known === undefined) world.layouts[layout] = targets;
  const { policy, order } = visitingOrder(world, targets);
  const movements: DrawnMovement[] = [];
  let go = tStart;
  for (let i = 0; i < count; i++) {
    const target = targets[order[i]!]!;
    const others = order.slice(i + 1).map((which) => targets[which]!);
    const movement = drawAcquisition(world, target, go, courses[i]!, approachTo(world, target, others, i, count));
    movements.push(movement);
    go = movement.end;
    if (movement.presses.length === 0) break;
  }
  const last = movements[movements.length - 1]!;
  const tEnd = last.presses[last.presses.length - 1]?.tUp ?? last.end;
  return { tStart, tEnd, targets, movements, policy, order, ...(layout !== undefined && { layout }) };
}

/** Brings the hand back to the middle of the field, and gives the time at which it is there. */
function returnToMiddle({ strokes, hand, frame }: World, tEnd: number): number {
  const { x, y } = frame.middle;
  const onset = Math.max(tEnd, hand.stop) + RETURN_AFTER;
  strokes.push({ onset, duration: RETURN_TIME, dx: x - hand.x, dy: y - hand.y, bell: "minimumJerk" });
  Object.assign(hand, { x, y, field: { x: 0, y: 0 }, stop: onset + RETURN_TIME });
  return hand.stop;
}

function drawTargets(world: World, shown: number, count: number, underPointer: boolean): DrawnTarget[] {
  const { where, random, settings, frame, hand } = world;
  const discs: Disc[] = [];
  const targets: DrawnTarget[] = [];
  let from: { field: Vector; x: number; y: number } = hand;
  for (let i = 0; i < count; i++) {
    const disc = underPointer ? under(world) : placeTarget(where, random, settings.targets, from.field, discs);
    discs.push(disc);
    const y = from.y + (disc.y - from.field.y) * frame.scale;
    const centre = { x: from.x + (disc.x - from.field.x) * frame.scale * frame.stretch(y), y };
    targets.push({ shown, centre, width: disc.width * frame.scale, velocity: drawVelocity(world, frame.stretch(y)) });
    from = { field: disc, ...centre };
  }
  return targets;
}

function under({ random, settings, hand }: World): Disc {
  const width = random.pick(settings.targets.widths);
  const distance = random.uniform(0, UNDER_POINTER * width);
  const direction = random.uniform(0, 2 * Math.PI);
  return { x: hand.field.x + distance * Math.cos(direction), y: hand.field.y + distance * Math.sin(direction), width };
}

function drawVelocity({ random, settings, frame }: World, stretch: number): Vector {
  const [low, high] = settings.targets.speed;
  if (high === 0) return { x: 0, y: 0 };
  const speed = random.uniform(low, high) * frame.scale;
  const direction = random.uniform(0, 2 * Math.PI);
  return { x: speed * Math.cos(direction) * stretch, y: speed * Math.sin(direction) };
}

function drawCourse(draw: number, cases: CaseShares): Course {
  let below = 0;
  for (const course of ["timeout", "noMovement", "anticipation", "clutch"] as const) {
    below += cases[course];
    if (draw < below) return course;
  }
  return "plain";
}
