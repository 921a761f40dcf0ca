import type { PlateauReport } from "../learning/plateau/types.js";
import { requireInteger, requireNumber, requireObject, requireOneOf } from "../math/require.js";
import { VERSION } from "../math/version.js";
import type { PaceAdvice } from "../pacing/types.js";
import { planCautions } from "./plan/cautions.js";
import { firstItem, type PlanDiagnosis } from "./plan/first-item.js";
import { layOut } from "./plan/lay-out.js";
import {
  LAY_OFF_DAYS,
  LAY_OFF_SHARE,
  MOST_SHIFT,
  SHORTEST_MINUTES,
  UNITS_PER_MINUTE,
  USUAL_SHIFT,
  WANTED_HIT_SHARE,
} from "./plan/limits.js";
import { practiceOrder, practiceSpacing, practiceTests } from "./plan/order-and-spacing.js";
import { PARTS } from "./plan/parts.js";
import { planChoices } from "./plan/plan-choices.js";
import { planItem } from "./plan/plan-items.js";
import { plateauAnswer } from "./plan/plateau-answer.js";
import { requireDiagnosis, requirePace } from "./plan/require-given.js";
import { shareMinutes } from "./plan/share-minutes.js";
import { stopRules } from "./plan/stop-rules.js";
import type { Part, PracticePlan } from "./types.js";

const WHERE = "planPractice";

/** Options of `planPractice`; all may be left out. */
export interface PlanPracticeOptions {
  /** Minutes of practice on one day, 3 to 240, counted in half minutes (rounded down). Default 60. More than 60 are warned of and divided into two sittings. */
  readonly minutes?: number;
  /** Days of practice a week, 1 to 7, default 5. Fewer days put the tests farther apart. */
  readonly days?: number;
  /** What `diagnose` found. A named part gets minutes of the others; a limit or doubt leaves all parts equal, and the first item says what to mend or record. */
  readonly diagnosis?: PlanDiagnosis;
  /** Share of each other part's minutes that goes to the weakest one, 0 to 0.5, default 0.25; 0 keeps equal parts. A half gains more in the first weeks, and loses more where the diagnosis is wrong. */
  readonly shift?: number;
  /** Advice on pace for all practice. Without it no item has a pace, and 95 % is the wanted hit share of the stop rules. */
  readonly pace?: PaceAdvice;
  /** Advice on pace of single parts, in place of `pace`. */
  readonly partPaces?: Partial<Readonly<Record<Part, PaceAdvice>>>;
  /** Verdict of `detectPlateau` on the time per acquisition; "plateau" adds what to change, "declining" a caution. */
  readonly plateau?: PlateauReport["verdict"];
  /** Share of first presses that hit, 0 to 1. Default: that of `pace`, then that of `diagnosis`. Below 0.6 parts are not mixed. */
  readonly hitShare?: number;
  /** Sessions practised so far. Default: those of `diagnosis`. Below 5 parts are not mixed. */
  readonly sessions?: number;
  /** Days since the last practice, default 0. From 7 on the plan has half of the minutes. */
  readonly daysAway?: number;
}

/**
 * What to practise next, how long, at what pace, when to rest and when to stop: one day as plain data, with reasons and cautions.
 *
 * Every part gets a sixth of the time, all four together a third: 4 times 10 and 20 minutes in an hour (common practice, no source). A part that
 * the diagnosis names takes a quarter of each other part's minutes (`shift`, at most half). No stretch falls below 3 minutes; a day too short for
 * that has fewer parts. Parts follow each other until 5 sessions are done and 60 % of first presses hit, then they are mixed. Minutes of parts and
 * combined practice add up to `minutes` exactly; rests and the test, which is not due every day, come beside them. Nothing is random. Cautions are
 * always there: the plan is no medical advice. Cost O(1).
 *
 * @param options - see `PlanPracticeOptions`; minutes, days, seconds, shares
 * @returns items in order, spacing, tests, stop rules, choices and cautions; each item with its reason and how well that is supported
 * @throws TypeError or RangeError if an option has the wrong kind or lies outside its range
 * @see spacing: Lee and Genovese 1988, Shea and others 2000 (abstracts); order: reviews of contextual interference of 2024 (abstracts); breaks: advice of the British
 * Health and Safety Executive on screen work; doses, sets and stop rules: common practice, no source
 * @example
 * ```ts
 * const plan = planPractice({ minutes: 60 });
 * plan.items.map(({ kind, minutes }) => `${kind} ${minutes}`);
 * // => ["test 3", "part 10", "part 10", "part 10", "part 10", "rest 5", "combined 20"]
 * plan.order.kind; // => "blocked"
 * plan.cautions.length; // => 5
 * ```
 */
export function planPractice(options: PlanPracticeOptions = {}): PracticePlan {
  requireOptions(options);
  const { minutes: asked = 60, days = 5, shift = USUAL_SHIFT, diagnosis, pace, partPaces, plateau, daysAway = 0 } = options;
  const minutes = daysAway < LAY_OFF_DAYS ? asked : Math.max(SHORTEST_MINUTES, asked * LAY_OFF_SHARE);
  const units = Math.floor(minutes * UNITS_PER_MINUTE);
  const weakest = diagnosis?.verdict.kind === "weakestPart" ? diagnosis.verdict.part : undefined;
  const hitShare = options.hitShare ?? given(pace?.hitShare) ?? given(diagnosis?.hitShare);
  const wanted = pace?.wanted ?? WANTED_HIT_SHARE;
  const tests = practiceTests(days);
  const order = practiceOrder(options.sessions ?? diagnosis?.sessions, hitShare);
  const shares = shareMinutes(units, weakest, shift);
  const [first, ...others] = shares.parts;
  const context = {
    diagnosis,
    weakest,
    shifted: others.some((one) => one.units < first!.units),
    parts: shares.parts.map(({ part }) => part),
    paceOf: (part: Part | "combined") => (part === "combined" ? pace : (partPaces?.[part] ?? pace)),
  };
  const planned = units / UNITS_PER_MINUTE;
  return {
    header: { library: "aimed-movement", version: VERSION, schema: 1 },
    minutes: planned,
    days,
    items: [firstItem(diagnosis, tests.everyDays), ...layOut(shares, order.kind === "mixed").map((stretch) => planItem(stretch, context))],
    order,
    spacing: practiceSpacing(days),
    tests,
    stopRules: stopRules(wanted),
    ...(plateau === "plateau" ? { plateau: plateauAnswer({ hitShare, weakest, days }) } : {}),
    ...(pace ? { pace } : {}),
    choices: planChoices(wanted, shift, days, tests.everyDays),
    cautions: planCautions({ minutes: planned, asked, daysAway, declining: plateau === "declining" }),
  };
}

function given(estimate: PaceAdvice["hitShare"] | undefined): number | undefined {
  return estimate?.ok ? estimate.value : undefined;
}

function requireOptions(options: PlanPracticeOptions): void {
  requireObject(WHERE, "options", options);
  const { minutes, days, shift, diagnosis, pace, partPaces, plateau, hitShare, sessions, daysAway } = options;
  if (minutes !== undefined) requireNumber(WHERE, "options.minutes", minutes, 3, 240);
  if (days !== undefined) requireInteger(WHERE, "options.days", days, 1, 7);
  if (shift !== undefined) requireNumber(WHERE, "options.shift", shift, 0, MOST_SHIFT);
  if (diagnosis !== undefined) requireDiagnosis(WHERE, diagnosis);
  if (pace !== undefined) requirePace(WHERE, "options.pace", pace);
  if (partPaces !== undefined) {
    requireObject(WHERE, "options.partPaces", partPaces);
    for (const part of PARTS) if (partPaces[part] !== undefined) requirePace(WHERE, `options.partPaces.${part}`, partPaces[part]);
  }
  if (plateau !== undefined) requireOneOf(WHERE, "options.plateau", plateau, ["improving", "plateau", "declining", "cannotTell"]);
  if (hitShare !== undefined) requireNumber(WHERE, "options.hitShare", hitShare, 0, 1);
  if (sessions !== undefined) requireInteger(WHERE, "options.sessions", sessions, 0);
  if (daysAway !== undefined) requireInteger(WHERE, "options.daysAway", daysAway, 0);
}
