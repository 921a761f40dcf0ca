import { type Acquisition, analyze, type Estimate, parseRecording, type Session, summarize, type Trace, toTable } from "aimed-movement";
import { type Endpoints, hitProbability } from "aimed-movement/endpoints";
import { type PointingTrials, throughput } from "aimed-movement/fitts";
import { detectPlateau, type PlateauReport, type PracticeSeries } from "aimed-movement/learning";
import { type AnalyzeOptions, createAnalyzer } from "aimed-movement/movement";
import { createRecorder, type Recorder } from "aimed-movement/record";
import { simulateRecording } from "aimed-movement/simulate";
import { lowpass } from "aimed-movement/trace";

export function report(text: string, options: AnalyzeOptions): string {
  const { session }: { session: Session } = parseRecording(text);
  const rows: Acquisition[] = session.recordings.flatMap((recording) => analyze(recording, options));
  const hits: Estimate = summarize(rows).hitAtFirstPress;
  // the compiler makes a caller look before it gives the number
  const share: string = hits.ok ? hits.value.toFixed(2) : hits.why;
  return [share, ...toTable(rows).map((row) => row.outcome)].join("\n");
}

export function live(element: Element): Recorder {
  const analyzer = createAnalyzer({ kind: "plane", unit: "px" });
  return createRecorder(element, { onChunk: (chunk) => console.log(analyzer.push(chunk).length) });
}

export function smooth(): number {
  const trace: Trace = simulateRecording({ seed: 1 }).recording.trace;
  return lowpass(trace.x, { sampleRateHz: 250, cutoffHz: 10 }).length;
}

export function figures(trials: PointingTrials, endpoints: Endpoints): readonly Estimate[] {
  return [throughput(trials).throughput, hitProbability(endpoints, { kind: "circle", diameter: 40 }).observed];
}

// @ts-expect-error a trace needs its three columns
analyze({ trace: { t: new Float64Array(1) } });

export function course(series: PracticeSeries): PlateauReport["verdict"] {
  return detectPlateau({ day: series.practice, value: series.value }, { better: "higher" }).verdict;
}
