// One line per acquisition, the same while they come and at the end.
import type { Acquisition } from "../../src/movement/types.js";
import type { ReportTable } from "../../src/report/render/document.js";
import { sayValue } from "../../src/report/review/say.js";
import { ACQUISITION_HEAD } from "./acquisition-head.js";
import { FLAG_WORDS, OUTCOME_WORDS } from "./words.js";

export function acquisitionCells({ target, outcome, times, budget, errors, flags }: Acquisition): string[] {
  const length = (value: number | undefined): string => (value === undefined ? "none" : value.toFixed(1));
  return [
    target,
    OUTCOME_WORDS[outcome],
    sayValue(times.end - times.go, "s"),
    sayValue(budget.latency, "s"),
    sayValue(budget.primary, "s"),
    sayValue(budget.correction, "s"),
    sayValue(budget.verification, "s"),
    length(errors.press?.along),
    length(errors.press?.across),
    flags.map((flag) => FLAG_WORDS[flag]).join(", "),
  ];
}

export function acquisitionTable(rows: readonly Acquisition[]): ReportTable {
  return { caption: "Every acquisition", head: ACQUISITION_HEAD, rows: rows.map(acquisitionCells) };
}
