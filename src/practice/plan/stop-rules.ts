import { sayPercent } from "../say.js";
import type { StopRule } from "../types.js";
import { HIT_SHARE_MARGIN, LATENCY_BLOCKS, LATENCY_GROWTH } from "./limits.js";

/** When to stop or to leave a part; `judgeBlocks` applies all but the first, which only the person can know. */
export function stopRules(wanted: number): StopRule[] {
  return [
    {
      rule: "Stop at once at any pain, tingling, numbness or weakness, and do not take the practice up again on that day.",
      reason: "These are signs of strain, not of effort, and practice through them can do harm.",
      evidence: "commonPractice",
    },
    {
      rule: `Stop or change the part when two blocks in a row hit less than ${sayPercent(wanted - HIT_SHARE_MARGIN)} at the first press, at the slow pace.`,
      reason:
        "What is repeated is what is learned: misses at a pace that was clean before say that it is no longer the skill that is practised.",
      evidence: "commonPractice",
    },
    {
      rule: "Stop or change the part when the error of the primary movement lies above the day's best block by more than your own smallest detectable change, two blocks in a row, at the slow pace.",
      reason: "Less than that is scatter; more, twice, is a hand that no longer does what it did.",
      evidence: "commonPractice",
    },
    {
      rule: `Stop or change the part when latency grows by more than ${sayPercent(LATENCY_GROWTH)} a block over ${LATENCY_BLOCKS} blocks, at the slow pace.`,
      reason: "Slower and slower reactions at one task are an early sign of tiredness.",
      evidence: "weak",
    },
  ];
}
