// Simulated sessions of an invented trainee, for the pictures of the report's charts.
import {
  analyze,
  analyzePursuit,
  type ChartData,
  chartSpecs,
  fitSpeedAccuracy,
  type PracticeReview,
  paceTrials,
  recommendPace,
  reviewPractice,
  type SessionSummary,
  summarizeSession,
} from "aimed-movement";
import { type SimulateRecordingOptions, simulatePursuit, simulateRecording } from "aimed-movement/simulate";

/** The specification of the one chart that these data make. */
export function chartOf(data: ChartData): object {
  // Vega marks the data it is given
  return structuredClone(chartSpecs(data)[0]!.spec);
}

/** Fourteen sessions of a trainee who answers ever sooner and has corrected late since the ninth. */
export function trainee(): { readonly sessions: readonly SessionSummary[]; readonly review: PracticeReview } {
  const sessions = Array.from({ length: 14 }, (_, i) => {
    const late = i < 8 ? {} : { correction: { onset: [0, 0.3], gains: [0.6, 0.8] } as const };
    const { recording } = simulateRecording({ seed: 40 + i, movements: 80, latency: { mu: 0.2 + 0.06 * Math.exp(-i / 4) }, ...late });
    const startedAt = new Date(Date.UTC(2026, 2, 2 + 2 * i, 18)).toISOString();
    return summarizeSession({
      person: "Mira",
      startedAt,
      equipment: { id: "desk", refreshHz: 240, latency: 0.02 },
      recordings: [recording],
    });
  });
  return { sessions, review: reviewPractice(sessions) };
}

/** One recording, and its rows. */
export function recorded(options: SimulateRecordingOptions) {
  const { recording } = simulateRecording(options);
  return { recording, rows: analyze(recording) };
}

/** Blocks at three deliberate paces; scatter grows with speed. */
export function paced(): NonNullable<ChartData["speedAccuracy"]> {
  const rows = (["fast", "usual", "slow"] as const).flatMap((block, k) => {
    const slow = [0.7, 1, 1.4][k]!;
    const primary = { timeIntercept: 0.12 * slow, timeSlope: 0.05 * slow, alongSd: 0.05 / slow, acrossSd: 0.025 / slow };
    return recorded({
      seed: 60 + k,
      movements: 60,
      targets: { amplitude: [400, 400], widths: [60] },
      primary,
      correction: { pureShare: 1 },
    }).rows.map((row) => ({ ...row, block }));
  });
  const { trials } = paceTrials(rows);
  const fit = fitSpeedAccuracy(trials);
  return { fit, recommended: recommendPace(fit, { wanted: 0.85 }), trials };
}

/** How a moving target is followed. */
export function followed(): NonNullable<ChartData["pursuit"]> {
  return analyzePursuit(simulatePursuit({ seed: 7, duration: 60 }).recording)[0]!.response.x;
}
