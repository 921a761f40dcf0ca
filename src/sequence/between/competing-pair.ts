import { isInside } from "../../trace/shape/target-shape.js";
import type { Target } from "../../trace/types.js";
import type { Visit } from "../steps/sequence-trials.js";
import type { BetweenLanding } from "../types.js";
import { isAimed, type OwnScatter } from "./own-scatter.js";

/** Directions closer than this cannot be told from an undershoot or a curve; farther apart nothing lies in between (a choice of this library). */
const SEPARATION_DEG = [20, 90] as const;
/** Targets closer than this many standard deviations are not told apart by an end point (likewise). */
const APART = 3;
/** What counts as between: shares of the way, and the distance from it in halves of W or as a share of it (likewise). */
const BETWEEN = [0.2, 0.8] as const;
const OFF_LINE = 0.15;
const DEGREES = 180 / Math.PI;

/** The chosen target and another, in the frame of the movement: along from start to the chosen centre, left of it on the screen; the chosen centre is the origin. */
export interface CompetingPair {
  readonly chosen: Target;
  readonly other: Target;
  readonly amplitude: number;
  readonly width: number;
  readonly ux: number;
  readonly uy: number;
  /** The other's centre. */
  readonly along: number;
  readonly left: number;
  readonly distance: number;
  readonly separationDeg: number;
}

/** The nearest other target that can be told apart; `"undecidable"` when there are some in range, all of them too close; `undefined` when there are none. */
export function competingPair(visit: Visit, sd: OwnScatter["sd"]): CompetingPair | "undecidable" | undefined {
  const { row, start, centre, others, target } = visit;
  if (start === undefined || row.errors.primary?.along === undefined || !isAimed(row)) return undefined;
  const dx = centre.x - start.x;
  const dy = centre.y - start.y;
  const amplitude = Math.sqrt(dx * dx + dy * dy);
  if (!(amplitude > 0)) return undefined;
  const ux = dx / amplitude;
  const uy = dy / amplitude;
  let nearest: CompetingPair | undefined;
  let inRange = false;
  for (const other of others) {
    if ("t" in other.target.at) continue;
    const ox = other.centre.x - centre.x;
    const oy = other.centre.y - centre.y;
    const along = ox * ux + oy * uy;
    const left = ox * uy - oy * ux;
    const separationDeg = Math.abs(Math.atan2(left, amplitude + along)) * DEGREES;
    if (!(separationDeg >= SEPARATION_DEG[0] && separationDeg <= SEPARATION_DEG[1])) continue;
    inRange = true;
    const distance = Math.sqrt(along * along + left * left);
    const scatter = sd === undefined ? 0 : (amplitude * Math.sqrt((sd.along * along) ** 2 + (sd.across * left) ** 2)) / distance;
    if (sd === undefined || distance < APART * scatter || (nearest !== undefined && distance >= nearest.distance)) continue;
    nearest = { chosen: target, other: other.target, amplitude, width: row.width, ux, uy, along, left, distance, separationDeg };
  }
  return nearest ?? (inRange ? "undecidable" : undefined);
}

/** The same pair with the other target on the other side of the way. */
export function mirrored(pair: CompetingPair): CompetingPair {
  return { ...pair, left: -pair.left };
}

/** Whether an end point lies between the two. */
export function isBetween(pair: CompetingPair, along: number, left: number): boolean {
  const { distance, width } = pair;
  const share = shareOf(pair, along, left);
  if (!(share > BETWEEN[0] && share < BETWEEN[1])) return false;
  if (offLineOf(pair, along, left) > Math.max(width / 2, OFF_LINE * distance)) return false;
  return !onTarget(pair.chosen, pair, along, left) && !onTarget(pair.other, pair, along - pair.along, left - pair.left);
}

/** An end point beside the pair. */
export function describeLanding(pair: CompetingPair, along: number, left: number): BetweenLanding {
  const { other, separationDeg, distance, amplitude } = pair;
  return {
    other: other.id,
    separationDeg,
    distance,
    share: shareOf(pair, along, left) + 0,
    offLine: offLineOf(pair, along, left),
    averagingIndex: (Math.sign(pair.left) * Math.atan2(left, amplitude + along) * DEGREES) / separationDeg + 0,
    between: isBetween(pair, along, left),
  };
}

function shareOf(pair: CompetingPair, along: number, left: number): number {
  return (along * pair.along + left * pair.left) / (pair.distance * pair.distance);
}

function offLineOf(pair: CompetingPair, along: number, left: number): number {
  return Math.abs(along * pair.left - left * pair.along) / pair.distance;
}

/** Whether an offset told along and to the left lies on the target's shape, which is told on the screen. */
function onTarget({ shape }: Target, { ux, uy }: CompetingPair, along: number, left: number): boolean {
  return isInside(shape, along * ux + left * uy, along * uy - left * ux, 1);
}
