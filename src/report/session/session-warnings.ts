import type { DisplayTiming } from "../../equipment/index.js";
import type { Acquisition } from "../../movement/types.js";
import { hasBoundaries } from "../../movement/unsound-rows.js";
import type { SamplingReport, SamplingWarningCode } from "../../trace/quality/sampling-report.js";
import type { Equipment } from "../../trace/types.js";
import type { SessionWarning } from "../types.js";

/** Rows under which a spread is known only roughly. */
const FEW_ROWS = 20;
/** Share of rows with unsound boundaries that is worth a word. */
const UNSOUND_SHARE = 0.1;
/** A warning of these kinds says that figures suffer, not only that the report is rough. */
const SAMPLING_SUFFERS: readonly SamplingWarningCode[] = [
  "lowRate",
  "framePaced",
  "lostReports",
  "gapsInMotion",
  "coarsePosition",
  "polled",
  "implausibleJumps",
];

/** What to know of a session before its figures are used. */
export function sessionWarnings(
  rows: readonly Acquisition[],
  sampling: readonly SamplingReport[],
  display: DisplayTiming | undefined,
  equipment: Equipment,
): SessionWarning[] {
  const unsound = rows.filter((row) => !hasBoundaries(row)).length;
  const tests: readonly [SessionWarning, boolean][] = [
    ["noAcquisitions", rows.length === 0],
    ["fewAcquisitions", rows.length > 0 && rows.length < FEW_ROWS],
    ["sampling", sampling.some(({ warnings }) => warnings.some(({ code }) => SAMPLING_SUFFERS.includes(code)))],
    ["unsoundRows", unsound > UNSOUND_SHARE * rows.length],
    ["display", display?.verdict === "slow" || display?.verdict === "unsteady"],
    ["equipmentUnknown", equipment.latency === undefined && equipment.refreshHz === undefined],
  ];
  return tests.flatMap(([warning, holds]) => (holds ? [warning] : []));
}
