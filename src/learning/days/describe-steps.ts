import type { SessionFit } from "./fit-sessions.js";
import type { TrialRange } from "./group-trials.js";
import type { RawStep } from "./steps-between.js";
import type { SessionStep } from "./structure.js";

/** The steps with their changes as shares; `share` turns a change on the scale of the fit into one. */
export function describeSteps(
  steps: readonly RawStep[],
  sessions: readonly TrialRange[],
  fit: SessionFit | undefined,
  better: "lower" | "higher",
  share: (change: number) => number | null,
): SessionStep[] {
  return steps.map(({ days, kind, raw }, j) => {
    const labels = { from: sessions[j]!.session, to: sessions[j + 1]!.session, days, kind };
    if (fit === undefined) return { ...labels, corrected: null, warmUpRemoved: null, raw: share(raw), recoveredAfter: null };
    const { levels, slope } = fit.shape;
    const change = levels[j + 1]! - levels[j]!;
    const within = slope * (sessions[j]!.to - sessions[j]!.from - 1);
    return {
      ...labels,
      corrected: share(fit.slopeTakenAs === "gain" ? change - within : change),
      warmUpRemoved: share(change - within),
      raw: share(raw),
      recoveredAfter: kind === "break" ? recoveredAfter(levels, j, better) : null,
    };
  });
}

// sessions after session `j` until one is as good again
function recoveredAfter(levels: Float64Array, j: number, better: "lower" | "higher"): number | null {
  for (let i = j + 1; i < levels.length; i++) {
    if (better === "lower" ? levels[i]! <= levels[j]! : levels[i]! >= levels[j]!) return i - j;
  }
  return null;
}
