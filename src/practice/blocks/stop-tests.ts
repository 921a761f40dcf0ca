import { HIT_SHARE_MARGIN, LATENCY_BLOCKS, LATENCY_GROWTH, LEAST_BLOCK, POOR_BLOCKS, SLOW_SHARE } from "../plan/limits.js";
import { sayPercent } from "../say.js";
import type { PractisedBlock, StopCause } from "./types.js";

/** What one rule says of the last blocks. `tooFast`: they were poor, but made faster than the slow pace. */
export interface Firing {
  readonly cause: Exclude<StopCause, "symptoms">;
  readonly state: "quiet" | "stop" | "tooFast" | "notJudged";
  readonly reason: string;
}

const quiet = (cause: Firing["cause"]): Firing => ({ cause, state: "quiet", reason: "" });
const notJudged = (cause: Firing["cause"]): Firing => ({ cause, state: "notJudged", reason: "" });

/** A rule that fired means something else in blocks that were made too fast. */
function fire(cause: Firing["cause"], last: readonly PractisedBlock[], slowPace: number | undefined, reason: string): Firing {
  const slow = last.every((block) => isSlow(block, slowPace));
  return {
    cause,
    state: slow ? "stop" : "tooFast",
    reason: slow ? reason : `${reason} They were faster than the slow pace: go back to it first.`,
  };
}

function isSlow({ movementTime }: PractisedBlock, slowPace: number | undefined): boolean {
  return slowPace === undefined || movementTime === undefined || movementTime >= SLOW_SHARE * slowPace;
}

export function hitShareRule(blocks: readonly PractisedBlock[], wanted: number, slowPace: number | undefined): Firing {
  const cause = "hitShare";
  const last = blocks.slice(-POOR_BLOCKS);
  if (last.length < POOR_BLOCKS || last.some(({ trials }) => trials < LEAST_BLOCK)) return notJudged(cause);
  const least = wanted - HIT_SHARE_MARGIN;
  // 17 of 20 is not below .95 - .10, whatever the last digit of the difference says
  if (!last.every(({ hits, trials }) => hits < least * trials - 1e-9 * trials)) return quiet(cause);
  const shares = last.map(({ hits, trials }) => `${hits} of ${trials}`).join(" and ");
  return fire(cause, last, slowPace, `${shares} first presses hit in the last ${POOR_BLOCKS} blocks, less than ${sayPercent(least)}.`);
}

export function primaryErrorRule(blocks: readonly PractisedBlock[], detectable: number | undefined, slowPace: number | undefined): Firing {
  const cause = "primaryError";
  if (detectable === undefined) return notJudged(cause);
  const last = blocks.slice(-POOR_BLOCKS).flatMap(({ primaryError }) => primaryError ?? []);
  const before = blocks.slice(0, -POOR_BLOCKS).flatMap((block) => (isSlow(block, slowPace) ? (block.primaryError ?? []) : []));
  if (last.length < POOR_BLOCKS || before.length === 0) return notJudged(cause);
  const best = bestOf(before);
  if (!last.every((error) => error - best > detectable)) return quiet(cause);
  const said = last.map(sayError).join(" and ");
  const reason = `The primary error was ${said} in the last ${POOR_BLOCKS} blocks, above the day's best of ${sayError(best)} by more than the detectable ${sayError(detectable)}.`;
  return fire(cause, blocks.slice(-POOR_BLOCKS), slowPace, reason);
}

/** Least mean of two blocks in a row: a single best block is as much luck as skill. */
function bestOf(errors: readonly number[]): number {
  if (errors.length === 1) return errors[0]!;
  return Math.min(...errors.slice(1).map((error, i) => (error + errors[i]!) / 2));
}

function sayError(error: number): string {
  return String(Number(error.toPrecision(3)));
}

export function latencyRule(blocks: readonly PractisedBlock[], slowPace: number | undefined): Firing {
  const cause = "latency";
  const last = blocks.slice(-LATENCY_BLOCKS);
  if (last.length < LATENCY_BLOCKS || last.some(({ latency }) => latency === undefined)) return notJudged(cause);
  const growth = (last.at(-1)!.latency! / last[0]!.latency!) ** (1 / (LATENCY_BLOCKS - 1)) - 1;
  if (growth <= LATENCY_GROWTH + 1e-9) return quiet(cause);
  return fire(cause, last, slowPace, `Latency grew by ${sayPercent(growth)} a block over the last ${LATENCY_BLOCKS} blocks.`);
}
