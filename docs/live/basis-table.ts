// What the figures rest on: how much was recorded, how it was sampled and shown, and what to beware of.
import { sayCount } from "../../src/practice/say.js";
import type { ReportTable } from "../../src/report/render/document.js";
import { sayEquipment, sayValue } from "../../src/report/review/say.js";
import type { SessionSummary } from "../../src/report/types.js";
import type { Estimate } from "../../src/trace/index.js";
import { estimateWords, OUTCOME_WORDS, SAMPLING_WORDS, SESSION_WORDS } from "./words.js";

export function basisTable(session: SessionSummary): ReportTable {
  const { rows, summary, sampling, pursuits, devices, equipment, display, warnings } = session;
  const outcomes = Object.entries(summary.outcomes).filter(([, n]) => n > 0);
  const counted = outcomes.map(([outcome, n]) => `${n} ${OUTCOME_WORDS[outcome as keyof typeof OUTCOME_WORDS]}`).join(", ");
  const complaints = [...new Set(sampling.flatMap((report) => report.warnings.map(({ code }) => SAMPLING_WORDS[code])))];
  return {
    caption: "What the figures rest on",
    head: ["of the recording", "figure"],
    rows: [
      ["acquisitions of standing targets", rows.length === 0 ? "none" : `${rows.length}: ${counted}`],
      ["moving targets followed", String(pursuits.length)],
      ["pointer", `${devices.join(", ")}; equipment: ${sayEquipment(equipment)}`],
      ["positions per second in motion", each(sampling.map(({ rate }) => rate))],
      ["finest step of the positions", each(sampling.map(({ positionQuantum }) => positionQuantum))],
      ["sampling", complaints.length === 0 ? "nothing to complain of" : complaints.join("; ")],
      ["frames per second", display === undefined ? "not recorded" : `${estimateWords(display.rate)}; ${FRAME_WORDS[display.verdict]}`],
      ["beware", warnings.length === 0 ? "nothing found" : warnings.map((warning) => SESSION_WORDS[warning]).join(" ")],
    ],
  };
}

const FRAME_WORDS = {
  steady: "steady",
  slow: "slower than stated",
  fast: "faster than stated",
  unsteady: "unsteady",
  cannotTell: "too few to judge",
} as const;

/** One figure of several recordings: as it is, or from the lowest to the highest. */
function each(figures: readonly Estimate[]): string {
  const known = figures.flatMap((figure) => (figure.ok ? [figure] : [])).sort((a, b) => a.value - b.value);
  const missing = figures.filter(({ ok }) => !ok).map((figure) => estimateWords(figure));
  const ends = [known[0], known[known.length - 1]].flatMap((figure) =>
    figure ? sayValue(figure.value, figure.unit.replace("space unit", "px")) : [],
  );
  return [...(ends.length > 0 ? [[...new Set(ends)].join(" to ")] : []), ...new Set(missing)].join("; ");
}

/** The main figure in a sentence, for those who hear the page. */
export function acquisitionsSentence({ rows, pursuits }: SessionSummary): string {
  const parts = [
    ...(rows.length > 0 ? [sayCount(rows.length, "acquisition")] : []),
    ...(pursuits.length > 0 ? [sayCount(pursuits.length, "moving target")] : []),
  ];
  return parts.join(" and ");
}
