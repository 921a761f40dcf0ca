import { PART_NAMES } from "../../practice/part-names.js";
import { sayCount } from "../../practice/say.js";
import { methods } from "../methods.js";
import { itemWords } from "../review/answer-next.js";
import { sayChange, sayDate, sayEquipment, sayEstimate, sayReason, sayValue } from "../review/say.js";
import type { PracticeReview } from "../types.js";
import type { ReportDocument, ReportSection, ReportTable } from "./document.js";

/** What a review says, in order: what is known of the data, then the answers, then the figures they rest on. */
export function reportDocument(review: PracticeReview): ReportDocument {
  const { person, answers } = review;
  return {
    title: `Pointing practice of ${person}`,
    lead: leadLine(review),
    sections: [
      { id: "cost", heading: "What costs most", paragraphs: answers.costsMost, tables: [partTable(review), timeTable(review)] },
      { id: "change", heading: "Is it real?", paragraphs: answers.isItReal, tables: changeTables(review) },
      { id: "equipment", heading: "Is it the equipment?", paragraphs: answers.isItTheEquipment },
      { id: "next", heading: "What next", paragraphs: answers.whatNext, tables: [planTable(review)] },
      { id: "stop", heading: "When to stop", paragraphs: [], points: answers.whenToStop },
      { id: "choices", heading: "Numbers that somebody chose", paragraphs: [], tables: [choiceTable(review)] },
      { id: "methods", heading: "How it was computed", paragraphs: [methods(review)] },
    ].filter(says),
    foot: `Made by aimed-movement ${review.header.version} from pointer recordings. It is no medical advice.`,
  };
}

function says({ paragraphs, points = [], tables = [] }: ReportSection): boolean {
  return paragraphs.length + points.length + tables.length > 0;
}

/** Dates, n and equipment, then what cannot be said. */
function leadLine({ sessions, rows, from, to, spells, answers }: PracticeReview): string {
  const dates = sayDate(from) === sayDate(to) ? `on ${sayDate(from)}` : `from ${sayDate(from)} to ${sayDate(to)}`;
  const equipment = spells.map((spell) => sayEquipment(spell.equipment)).join(", then ");
  return `${sayCount(sessions, "session")} ${dates}, ${sayCount(rows, "acquisition")}; equipment: ${equipment}. What these recordings cannot say: ${answers.cannotSay.join("; ")}.`;
}

function partTable({ diagnosis }: PracticeReview): ReportTable {
  return {
    caption: "Time beyond the reference, per acquisition",
    head: ["part", "beyond reference", "own time", "passed on to later parts", "costs most in"],
    rows: diagnosis.parts.map(({ part, excess, own, passedOn, probabilityLargest }) => [
      PART_NAMES[part],
      sayEstimate(excess),
      sayEstimate(own),
      sayEstimate(passedOn),
      `${(100 * probabilityLargest).toFixed(0)} %`,
    ]),
  };
}

/** The stretches of an acquisition in the words of a report. */
export const BUDGET_WORDS = {
  latency: "response latency",
  primary: "primary movement",
  correction: "corrections",
  clutch: "lifting the device",
  verification: "stop to press",
  recovery: "after a first miss",
} as const;

function timeTable({ recent }: PracticeReview): ReportTable {
  const { parts } = recent.summary.time;
  const names = Object.keys(BUDGET_WORDS) as (keyof typeof BUDGET_WORDS)[];
  const all = names.reduce((sum, part) => sum + parts[part].total, 0);
  return {
    caption: `Where the time goes, ${sayCount(recent.summary.n, "acquisition")} of the ${sayCount(recent.sessions, "recent session")}`,
    head: ["stretch", "mean", "share"],
    rows: names.map((part) => [
      BUDGET_WORDS[part],
      sayEstimate(parts[part].mean),
      all > 0 ? `${((100 * parts[part].total) / all).toFixed(0)} %` : "",
    ]),
  };
}

const SKILL_WORDS = { better: "better", worse: "worse", equivalent: "unchanged", cannotTell: "cannot tell" } as const;

function changeTables({ comparison }: PracticeReview): ReportTable[] {
  if (comparison === undefined) return [];
  return [
    {
      caption: `From ${sayCount(comparison.before.sessions, "session")} to ${sayCount(comparison.after.sessions, "session")}, at the same difficulty`,
      head: ["measure", "before", "after", "change", "verdict"],
      rows: comparison.measures.map(({ label, comparison: one, skill }) => [
        label,
        one === null ? "not known" : levelWords(one.before.centre),
        one === null ? "not known" : levelWords(one.after.centre),
        one === null ? "not known" : sayChange(one.change),
        SKILL_WORDS[skill],
      ]),
    },
  ];
}

function levelWords(estimate: Parameters<typeof sayEstimate>[0]): string {
  return estimate.ok ? sayValue(estimate.value, estimate.unit) : `not known (${sayReason(estimate.why)})`;
}

function planTable({ plan }: PracticeReview): ReportTable {
  return {
    caption: `One day: ${plan.minutes} minutes of practice, ${plan.order.kind === "mixed" ? "parts mixed" : "one part after the other"}`,
    head: ["what", "minutes", "pace", "hits wanted"],
    rows: plan.items.map((item) => [
      itemWords(item),
      String(Number(item.minutes.toFixed(1))),
      item.pace ? sayValue(item.pace.movementTime, "s") : "",
      item.pace ? sayValue(item.pace.hitShare, "1") : "",
    ]),
  };
}

/** A chosen number as it was chosen: seconds stay seconds. */
function choiceWords(value: number, unit: string): string {
  if (unit === "1") return sayValue(value, unit);
  return UNITS_AS_THEY_ARE.includes(unit) ? `${value} ${unit}` : sayCount(value, unit);
}

const UNITS_AS_THEY_ARE: readonly string[] = ["%", "s", "min", "ms"];

function choiceTable({ plan }: PracticeReview): ReportTable {
  return {
    caption: "Choices behind the plan",
    head: ["choice", "value", "why"],
    rows: plan.choices.map(({ name, value, unit, why }) => [name, choiceWords(value, unit), why]),
  };
}
