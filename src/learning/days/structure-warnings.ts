import type { Estimate } from "../../math/estimate.js";
import type { SessionFit } from "./fit-sessions.js";
import type { TrialRange } from "./group-trials.js";
import type { SessionStructure, SessionStructureWarning } from "./structure.js";

const FEW_SESSIONS = 5;
const FEW_TRIALS = 20;
/** Independent levels would resemble their neighbours as much less often than this. */
const UNLIKELY = 0.05;

/** The warnings, in the order of their list. */
export function structureWarnings(
  sessions: readonly TrialRange[],
  fit: SessionFit | undefined,
  overnight: SessionStructure["overnight"],
  better: "lower" | "higher",
): SessionStructureWarning[] {
  const raw = direction(overnight.raw.share, better);
  const misled = fit !== undefined && overnight.corrected.share.ok && raw !== direction(overnight.corrected.share, better);
  const said: readonly (readonly [SessionStructureWarning, boolean])[] = [
    ["noDays", sessions.some(({ day }) => day === null)],
    ["fewSessions", sessions.length < FEW_SESSIONS],
    ["fewTrials", sessions.some(({ from, to }) => to - from < FEW_TRIALS)],
    ["noWarmUp", fit?.warmUpShown === false],
    ["rateAtLimit", fit?.shape.rateInside === false],
    ["gainWithinSession", fit?.slopeTakenAs === "gain"],
    ["fatigueMistakenForGain", misled && raw === "better"],
    ["warmUpMistakenForLoss", misled && raw === "worse"],
    ["autocorrelated", (fit?.corrected?.autocorrelation?.p ?? 1) <= UNLIKELY],
  ];
  return said.flatMap(([warning, holds]) => (holds ? [warning] : []));
}

function direction(change: Estimate, better: "lower" | "higher"): "better" | "worse" | "neither" {
  if (!change.ok || change.interval === undefined) return "neither";
  const [low, high] = change.interval;
  if (low <= 0 && high >= 0) return "neither";
  return high < 0 === (better === "lower") ? "better" : "worse";
}
