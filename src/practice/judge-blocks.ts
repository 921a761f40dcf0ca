import { requireInteger, requireNumber, requireObject, show } from "../math/require.js";
import { type Firing, hitShareRule, latencyRule, primaryErrorRule } from "./blocks/stop-tests.js";
import type { BlocksVerdict, PractisedBlock } from "./blocks/types.js";
import { WANTED_HIT_SHARE } from "./plan/limits.js";

const WHERE = "judgeBlocks";

/** Options of `judgeBlocks`. */
export interface JudgeBlocksOptions {
  /** Share of first presses that should hit, above 0.1 and below 1, default 0.95. A block is poor from 0.10 below. Raised, the rule fires sooner. */
  readonly wanted?: number;
  /** The person's own smallest detectable change of a block's primary error, in its unit, above 0. Without it that rule is not applied. */
  readonly detectable?: number;
  /** Movement time of the slow, clean pace, seconds, above 0. Blocks more than 5 % faster lead to `slowDown` instead. Default: every block counts as slow. */
  readonly slowPace?: number;
}

/**
 * Applies the stop rules of a plan to the blocks of one part on one day, as they come: go on, slow down, stop or change the part, or stop for today.
 *
 * Poor are two blocks in a row whose hit share lies more than 0.10 below the wanted one (10 acquisitions at least), or whose primary error lies above the day's best
 * (the least mean of two blocks in a row before them) by more than the person's own smallest detectable change; or three blocks over which latency grew by more than 10 % a block, sqrt(l3/l1) - 1, which is the
 * least-squares slope of the three logarithms. Only blocks at the slow pace count; faster ones call for the slow pace first. Any symptom, in any block, ends
 * the day. The numbers are choices. Cost O(blocks).
 *
 * @param blocks - the day's blocks of one part so far, in order
 * @param options - see `JudgeBlocksOptions`
 * @returns whether to stop, advice, every rule that fired with its figures, and the rules that could not be applied
 * @throws TypeError or RangeError if a block or an option is not as described
 * @see common practice, no source
 * @example
 * ```ts
 * const blocks = [{ trials: 30, hits: 29 }, { trials: 30, hits: 24 }, { trials: 30, hits: 25 }];
 * judgeBlocks(blocks.slice(0, 2)).advice; // => "goOn"
 * judgeBlocks(blocks).advice; // => "stopOrSwitchPart"
 * judgeBlocks([{ trials: 30, hits: 30, symptoms: true }]).advice; // => "stopToday"
 * ```
 */
export function judgeBlocks(blocks: readonly PractisedBlock[], options: JudgeBlocksOptions = {}): BlocksVerdict {
  requireBlocks(blocks);
  const { wanted = WANTED_HIT_SHARE, detectable, slowPace } = requireJudging(options);
  const fired: Firing[] = [
    hitShareRule(blocks, wanted, slowPace),
    primaryErrorRule(blocks, detectable, slowPace),
    latencyRule(blocks, slowPace),
  ];
  const because = fired.flatMap(({ cause, state, reason }) => (state === "stop" ? [{ cause, reason }] : []));
  const notJudged = fired.flatMap(({ cause, state }) => (state === "notJudged" ? [cause] : []));
  if (blocks.some(({ symptoms }) => symptoms === true)) {
    const reason =
      "Pain, tingling, numbness or weakness was noted: no more practice today, and see a clinician if it persists or comes back.";
    return { stop: true, advice: "stopToday", because: [{ cause: "symptoms", reason }, ...because], notJudged };
  }
  if (because.length > 0) return { stop: true, advice: "stopOrSwitchPart", because, notJudged };
  const hasty = fired.flatMap(({ cause, state, reason }) => (state === "tooFast" ? [{ cause, reason }] : []));
  const unasked = blocks.length === 0 || blocks.some(({ symptoms }) => symptoms === undefined);
  return {
    stop: false,
    advice: hasty.length > 0 ? "slowDown" : "goOn",
    because: hasty,
    notJudged: unasked ? ["symptoms", ...notJudged] : notJudged,
  };
}

function requireJudging(options: JudgeBlocksOptions): JudgeBlocksOptions {
  requireObject(WHERE, "options", options);
  const { wanted, detectable, slowPace } = options;
  if (wanted !== undefined) requireNumber(WHERE, "options.wanted", wanted, 0.1, 0.999, true);
  if (detectable !== undefined) requireNumber(WHERE, "options.detectable", detectable, 0, undefined, true);
  if (slowPace !== undefined) requireNumber(WHERE, "options.slowPace", slowPace, 0, undefined, true);
  return options;
}

function requireBlocks(blocks: readonly PractisedBlock[]): void {
  if (!Array.isArray(blocks)) throw new TypeError(`${WHERE}: blocks must be a list, got ${show(blocks)}`);
  for (const [i, block] of blocks.entries()) {
    const name = `blocks[${i}]`;
    requireObject(WHERE, name, block);
    requireInteger(WHERE, `${name}.trials`, block.trials, 1);
    requireInteger(WHERE, `${name}.hits`, block.hits, 0, block.trials);
    if (block.primaryError !== undefined) requireNumber(WHERE, `${name}.primaryError`, block.primaryError, 0);
    for (const field of ["latency", "movementTime"] as const) {
      if (block[field] !== undefined) requireNumber(WHERE, `${name}.${field}`, block[field], 0, undefined, true);
    }
    if (block.symptoms !== undefined && typeof block.symptoms !== "boolean") {
      throw new TypeError(`${WHERE}: ${name}.symptoms must be true or false, got ${show(block.symptoms)}`);
    }
  }
}
