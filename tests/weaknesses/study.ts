// Trainees with one part made worse, set against the same trainee without.
import type { Estimate } from "../../src/math/estimate.js";
import { analyze } from "../../src/movement/analyze.js";
import { summarize } from "../../src/movement/summarize.js";
import { type SimulateRecordingOptions, simulateRecording } from "../../src/simulate/index.js";
import { TRAINEE } from "./coupling.js";
import { MEASURES, type Measure, type MeasureName } from "./measures.js";

/** Every watched measure of one trainee: as the library gives it, and as it truly was. */
export type Trainee = Readonly<Record<MeasureName, { readonly estimate: Estimate; readonly truth: number | undefined }>>;

/** One trainee's practice, simulated and measured. */
export function train(seed: number, worse: SimulateRecordingOptions): Trainee {
  const { recording, truth } = simulateRecording(merged(TRAINEE, { ...worse, seed }));
  const summary = summarize(analyze(recording));
  const entries = Object.entries(MEASURES).map(([name, measure]: [string, Measure]) => [
    name,
    { estimate: measure.pick(summary), truth: measure.truth?.(truth.movements) },
  ]);
  return Object.fromEntries(entries);
}

/** Mean of a measure over trainees. */
export function level(trainees: readonly Trainee[], name: MeasureName): { readonly measured: number; readonly true: number } {
  const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    measured: average(trainees.flatMap((one) => (one[name].estimate.ok ? one[name].estimate.value : []))),
    true: average(trainees.flatMap((one) => one[name].truth ?? [])),
  };
}

/** Whether a measure lies beyond its interval about `usual`; one that could not be given has not moved. */
export function moved({ estimate }: Trainee[MeasureName], usual: number): boolean {
  return estimate.ok && estimate.interval !== undefined && (usual < estimate.interval[0] || usual > estimate.interval[1]);
}

function merged(a: SimulateRecordingOptions, b: SimulateRecordingOptions): SimulateRecordingOptions {
  const groups = ["latency", "primary", "correction", "press"] as const;
  const pairs = groups.map((group) => [group, { ...a[group], ...b[group] }]);
  return { ...a, ...b, ...Object.fromEntries(pairs) };
}
