import { medianInPlace } from "../math/median.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireColumn, requireInteger, requireNumber, requireObject, show } from "../math/require.js";
import { errorRise, type Rise } from "./advice/error-rise.js";
import type { PaceAdvice } from "./types.js";

const WHERE = "advisePace";

/** Trials made one after the other at one pace: a block whose length was fixed beforehand. `paceTrials` gives such columns. */
export interface PaceBlock {
  /** Seconds, above 0, as in `PaceTrials`. */
  readonly movementTime: Float64Array;
  /** 1 where the first press hit, 0 where it missed or there was none. */
  readonly hit: Float64Array;
  /** 0 where the time ran out before a press; default all 1. Such a trial is a miss, and slower than every press. */
  readonly pressed?: Float64Array;
  /** Errors of the primary endpoints, distances or signed, as many as were measured. Without them hits alone decide. */
  readonly primaryError?: Float64Array;
}

/** Options of `advisePace`. */
export interface AdvisePaceOptions {
  /** Share of first presses that should hit, above 0 and below 1, default 0.85. Raised, the pace becomes slower. */
  readonly wanted?: number;
  /** Step as a share of movement time, above 0 and at most 0.5, default 0.05. Raised, the pace is found in fewer blocks and left more widely. */
  readonly step?: number;
  /** Fewest trials of a block that may decide, at least 30, default 40. */
  readonly least?: number;
  /** Confidence of each one-sided bound, at least 0.6 and below 1, default 0.9. Raised, it holds more often. */
  readonly level?: number;
  /** Smallest rise of the total primary error that is a real one, in its unit, above 0, where a longer record tells it. Default: what the trials of both blocks could show at 95 %. */
  readonly minimalDetectable?: number;
}

/**
 * Slow down, hold or speed up after a block: by the share of hits and the primary error, with a dead zone and a wait before turning back.
 *
 * Speed up where the one-sided 90 % lower bound (Wilson) of the share of hits exceeds `wanted` and the total primary error has not risen beyond what it can show; slow down
 * where the upper bound is below `wanted`, or the primary error has risen so far; else hold. The error is compared with the blocks before at this pace, else with the last
 * one. A step against the last change of pace waits for a second block at this pace, judged on both. One look a block: not after every trial. Cost O(trials).
 *
 * @param history - the block just made, or all blocks in order, the last of them just made
 * @param options - see `AdvisePaceOptions`
 * @returns the advice, the pace from and to, the share of hits with both bounds, and what decided; `cannotTell` for a block of fewer than `least` trials
 * @throws TypeError or RangeError if a block or an option is not as described, or there is no trial
 * @see Wilson 1927 (from memory); the rule is a choice of this library, its figures are on its page
 * @example
 * ```ts
 * const block = { movementTime: new Float64Array(60).fill(0.5), hit: Float64Array.from({ length: 60 }, (_, i) => (i < 42 ? 1 : 0)) };
 * const { advice, to } = advisePace(block, { wanted: 0.85 });
 * advice; // => "slowDown"
 * to; // => 0.525
 * ```
 */
export function advisePace(history: PaceBlock | readonly PaceBlock[], options: AdvisePaceOptions = {}): PaceAdvice {
  const { wanted = 0.85, step = 0.05, least = 40, level = 0.9, minimalDetectable } = options;
  requireNumber(WHERE, "options.wanted", wanted, 0, 1, true);
  if (wanted === 1) throw new RangeError(`${WHERE}: options.wanted must be below 1, got 1`);
  requireNumber(WHERE, "options.step", step, 0, 0.5, true);
  requireInteger(WHERE, "options.least", least, 30);
  requireNumber(WHERE, "options.level", level, 0.6, 0.9999);
  if (minimalDetectable !== undefined) requireNumber(WHERE, "options.minimalDetectable", minimalDetectable, 0, undefined, true);
  const blocks = (Array.isArray(history) ? history : [history]) as readonly PaceBlock[];
  for (const [i, block] of blocks.entries()) requireBlock(block, Array.isArray(history) ? `history[${i}]` : "history");
  const last = blocks.at(-1);
  if (last === undefined) throw new RangeError(`${WHERE}: history must hold a block, got ${show(history)}`);
  const paces = blocks.map(paceOf);
  const from = paces.at(-1)!;
  // blocks at the present pace, the last one among them: less than half a step away
  let first = blocks.length - 1;
  while (first > 0 && Math.abs(Math.log(paces[first - 1]! / from)) < step / 2) first--;
  const here = blocks.slice(first);
  const shareOf = (some: readonly PaceBlock[]) => proportionEstimate(hitsOf(some), trialsOf(some), 2 * level - 1);
  const judge = (some: readonly PaceBlock[], rise: Rise | undefined): Judged => {
    const share = shareOf(some);
    const [low, high] = share.ok ? share.interval! : [0, 1];
    if (high < wanted)
      return { advice: "slowDown", why: `the upper bound of the hit share, ${percent(high)}, is below the ${percent(wanted)} wanted` };
    if (rise?.verdict === "risen") return { advice: "slowDown", why: rise.said };
    if (!(low > wanted))
      return {
        advice: "hold",
        why: `the hit share lies between ${percent(low)} and ${percent(high)}, which does not rule out the ${percent(wanted)} wanted`,
      };
    return { advice: "speedUp", why: `the lower bound of the hit share, ${percent(low)}, is above the ${percent(wanted)} wanted` };
  };
  const n = trialsOf([last]);
  const basic = { from, hitShare: shareOf([last]), wanted };
  if (n < least)
    return { advice: "cannotTell", ...basic, to: from, reason: `${n} trials are too few to change the pace: ${least} are needed.` };
  const before = here.length > 1 ? here.slice(0, -1) : blocks.slice(first - 1, first);
  const rise = errorRise(last, before, minimalDetectable);
  const judged = judge([last], rise);
  const turning = first > 0 && judged.advice !== "hold" && (judged.advice === "slowDown") !== from > paces[first - 1]!;
  const hold = (why: string): PaceAdvice => ({ advice: "hold", ...basic, to: from, reason: sentence(n, from, why) });
  if (judged.advice === "hold") return hold(judged.why);
  if (turning && here.length < 2) return hold(`${judged.why}, but the last step went the other way: a second block at this pace decides`);
  if (turning && judge(here.slice(-2), rise).advice !== judged.advice)
    return hold(`${judged.why}, but the last two blocks together do not say so`);
  const to = judged.advice === "slowDown" ? from * (1 + step) : from * (1 - step);
  const basis = turning ? { ...basic, hitShare: shareOf(here.slice(-2)) } : basic;
  return { advice: judged.advice, ...basis, to, reason: sentence(n, from, judged.why) };
}

interface Judged {
  readonly advice: "slowDown" | "hold" | "speedUp";
  readonly why: string;
}

function sentence(n: number, from: number, why: string): string {
  return `In ${n} trials at ${from.toFixed(3)} s ${why}.`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function trialsOf(blocks: readonly PaceBlock[]): number {
  return blocks.reduce((sum, { hit }) => sum + hit.length, 0);
}

function hitsOf(blocks: readonly PaceBlock[]): number {
  return blocks.reduce((sum, { hit, pressed }) => sum + hit.reduce((hits, one, i) => hits + (pressed?.[i] === 0 ? 0 : one), 0), 0);
}

/** Median movement time, trials without a press ranking as the slowest. */
function paceOf({ movementTime, pressed }: PaceBlock): number {
  const slowest = movementTime.reduce((most, t) => Math.max(most, t), 0);
  return medianInPlace(movementTime.map((t, i) => (pressed?.[i] === 0 ? slowest : t)));
}

function requireBlock(block: PaceBlock, name: string): void {
  requireObject(WHERE, name, block);
  const { movementTime, hit, pressed, primaryError } = block;
  requireColumn(WHERE, `${name}.movementTime`, movementTime);
  const n = movementTime.length;
  if (n === 0) throw new RangeError(`${WHERE}: ${name}.movementTime must have at least 1 entry, got 0`);
  const at = movementTime.findIndex((t) => !(t > 0));
  if (at >= 0) throw new RangeError(`${WHERE}: ${name}.movementTime[${at}] must be above 0, got ${movementTime[at]}`);
  for (const [column, values] of [
    ["hit", hit],
    ["pressed", pressed],
  ] as const) {
    if (values === undefined && column === "pressed") continue;
    requireColumn(WHERE, `${name}.${column}`, values!, n);
    const odd = values!.findIndex((value) => value !== 0 && value !== 1);
    if (odd >= 0) throw new RangeError(`${WHERE}: ${name}.${column}[${odd}] must be 0 or 1, got ${values![odd]}`);
  }
  if (primaryError !== undefined) requireColumn(WHERE, `${name}.primaryError`, primaryError);
}
