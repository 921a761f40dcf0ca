import type { Random } from "../../math/random.js";
import type { Vector } from "../truth.js";
import type { PursuitTargetModel } from "./options.js";

/** Headings tried before the target turns back to the middle of its bounds. */
const TRIES = 40;

/** One sinusoid of a target's path: amplitude sin(2 pi hz t + phase), t from the start of the trial. */
export interface TargetLine {
  readonly axis: "x" | "y";
  readonly hz: number;
  readonly amplitude: number;
  readonly phase: number;
}

/** A straight stretch of a path, from `t` seconds after the start of the trial on. */
export interface Leg {
  readonly t: number;
  readonly x: number;
  readonly y: number;
  readonly vx: number;
  readonly vy: number;
}

/** A target's path about the field's middle, from 0 to the end of the trial. */
export interface TargetPath {
  readonly lines: readonly TargetLine[];
  readonly legs: readonly Leg[];
  /** Place at a time, asked for in any order. */
  readonly at: (t: number) => Vector;
}

/** Draws a path of `duration` seconds. */
export function drawTargetPath(random: Random, model: PursuitTargetModel, duration: number): TargetPath {
  if (model.path === "multisine") return multisine(random, model);
  const legs = model.path === "straight" ? straight(random, model, duration) : walk(random, model, duration);
  return { lines: [], legs, at: (t) => onLeg(legs, t) };
}

function multisine(random: Random, { linesX, linesY, lineSpeed }: PursuitTargetModel): TargetPath {
  const line = (axis: "x" | "y", hz: number): TargetLine => {
    return { axis, hz, amplitude: lineSpeed / (2 * Math.PI * hz), phase: random.uniform(0, 2 * Math.PI) };
  };
  const lines = [...linesX.map((hz) => line("x", hz)), ...linesY.map((hz) => line("y", hz))];
  const at = (t: number): Vector => {
    let x = 0;
    let y = 0;
    for (const { axis, hz, amplitude, phase } of lines) {
      const value = amplitude * Math.sin(2 * Math.PI * hz * t + phase);
      if (axis === "x") x += value;
      else y += value;
    }
    return { x, y };
  };
  return { lines, legs: [], at };
}

function straight(random: Random, { speed }: PursuitTargetModel, duration: number): Leg[] {
  const v = random.uniform(...speed);
  const heading = random.uniform(0, 2 * Math.PI);
  const vx = v * Math.cos(heading);
  const vy = v * Math.sin(heading);
  return [{ t: 0, x: (-vx * duration) / 2, y: (-vy * duration) / 2, vx, vy }];
}

function walk(random: Random, { speed, leg, turnDeg, bounds }: PursuitTargetModel, duration: number): Leg[] {
  const v = random.uniform(...speed);
  const legs: Leg[] = [];
  let t = 0;
  let x = random.uniform(-bounds.width / 4, bounds.width / 4);
  let y = random.uniform(-bounds.height / 4, bounds.height / 4);
  let heading: number | undefined;
  while (t < duration) {
    const length = random.uniform(...leg);
    heading = nextHeading(random, heading, turnDeg, (angle) => {
      const endX = x + v * length * Math.cos(angle);
      const endY = y + v * length * Math.sin(angle);
      return Math.abs(endX) <= bounds.width / 2 && Math.abs(endY) <= bounds.height / 2;
    });
    heading ??= Math.atan2(-y, -x);
    const vx = v * Math.cos(heading);
    const vy = v * Math.sin(heading);
    legs.push({ t, x, y, vx, vy });
    x += vx * length;
    y += vy * length;
    t += length;
  }
  return legs;
}

/** A heading that differs from the last by an allowed turn and leads to where `fits` allows; `undefined` when none of many tries does. */
function nextHeading(
  random: Random,
  last: number | undefined,
  turnDeg: readonly [number, number],
  fits: (angle: number) => boolean,
): number | undefined {
  for (let k = 0; k < TRIES; k++) {
    const turn = (random.uniform(...turnDeg) * (random.uniform() < 0.5 ? 1 : -1) * Math.PI) / 180;
    const angle = last === undefined ? random.uniform(0, 2 * Math.PI) : last + turn;
    if (fits(angle)) return angle;
  }
  return undefined;
}

function onLeg(legs: readonly Leg[], t: number): Vector {
  let low = 0;
  let high = legs.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (legs[middle]!.t <= t) low = middle;
    else high = middle;
  }
  const { t: from, x, y, vx, vy } = legs[low]!;
  return { x: x + vx * (t - from), y: y + vy * (t - from) };
}
