// Compiled, not run: what a strict program may write with every entry that needs no page, and what it may not.
import { type Acquisition, analyze, type Estimate, parseRecording, type Session, summarize, type Trace, toTable } from "aimed-movement";
import { type Endpoints, hitProbability } from "aimed-movement/endpoints";
import { displayTiming } from "aimed-movement/equipment";
import { indexOfDifficulty, type PointingTrials, throughput } from "aimed-movement/fitts";
import { lawFromText } from "aimed-movement/formula";
import { detectPlateau, type LearningLaw, type PlateauReport, type PracticeSeries } from "aimed-movement/learning";
// @ts-expect-error an inner folder is not an entry
import type {} from "aimed-movement/math";
import { type AnalyzeOptions, createAnalyzer } from "aimed-movement/movement";
import { createStaircase, type StaircaseState, stepStaircase } from "aimed-movement/pacing";
import { type PlanPracticeOptions, type PracticePlan, planPractice } from "aimed-movement/practice";
import { analyzePursuit, type Pursuit } from "aimed-movement/pursuit";
import { methods, type SessionSummary, summarizeSession } from "aimed-movement/report";
import { shortestTour } from "aimed-movement/sequence";
import { simulateRecording } from "aimed-movement/simulate";
import { type Chunk, lowpass, type PointerEventLike } from "aimed-movement/trace";

export function report(text: string, options: AnalyzeOptions): string {
  const { session }: { session: Session } = parseRecording(text);
  const rows: Acquisition[] = session.recordings.flatMap((recording) => analyze(recording, options));
  const hits: Estimate = summarize(rows).hitAtFirstPress;
  // the compiler makes a caller look before it gives the number
  const share: string = hits.ok ? hits.value.toFixed(2) : hits.why;
  return [share, ...toTable(rows).map((row) => row.outcome)].join("\n");
}

export function unlooked(estimate: Estimate): number {
  // @ts-expect-error nobody has looked whether there is a value
  const value: number = estimate.value;
  if (!estimate.ok) {
    // @ts-expect-error a reason is one of a closed list
    if (estimate.why === "just because") return 0;
    return estimate.why === "tooFew" ? estimate.n : 0;
  }
  const [lower]: readonly [number, number] = estimate.interval ?? [value, value];
  return lower;
}

export function live(chunk: Chunk): number {
  return createAnalyzer({ kind: "plane", unit: "px" }).push(chunk).length;
}

export function smooth(): number {
  const trace: Trace = simulateRecording({ seed: 1 }).recording.trace;
  return lowpass(trace.x, { sampleRateHz: 250, cutoffHz: 10 }).length;
}

export function figures(trials: PointingTrials, endpoints: Endpoints): readonly Estimate[] {
  return [throughput(trials).throughput, hitProbability(endpoints, { kind: "circle", diameter: 40 }).observed];
}

export function course(series: PracticeSeries): PlateauReport["verdict"] {
  return detectPlateau({ day: series.practice, value: series.value }, { better: "higher" }).verdict;
}

export function others(session: Session, event: PointerEventLike, options: PlanPracticeOptions): readonly unknown[] {
  const law: LearningLaw = lawFromText("a + b / N");
  const plan: PracticePlan = planPractice(options);
  const state: StaircaseState = stepStaircase(createStaircase({ start: 80, lowest: 8 }), true);
  const summary: SessionSummary = summarizeSession(session);
  const pursuits: Pursuit[] = session.recordings.flatMap((recording) => analyzePursuit(recording));
  const rate: Estimate = displayTiming(Float64Array.of(0, 0.01, 0.02)).rate;
  const order: readonly number[] = shortestTour({ x: Float64Array.of(0), y: Float64Array.of(0) }).order;
  const reversal: number | undefined = state.reversals[0]?.level;
  return [law, plan.cautions, methods(summary), pursuits, rate, order, reversal, event.timeStamp];
}

// @ts-expect-error a trace needs its three columns
analyze({ trace: { t: new Float64Array(1) } });
// @ts-expect-error a width is a number
indexOfDifficulty(10, "2");
// @ts-expect-error there is no such option
summarize([], { colour: "red" });
// @ts-expect-error absent is not undefined
planPractice({ minutes: undefined });
// @ts-expect-error nothing is written into a result
summarize([]).n = 1;
