import { requireObject } from "../math/require.js";
import type { Acquisition } from "../movement/types.js";
import type { PaceRecommendation, PaceTrials, SpeedAccuracyFit } from "../pacing/index.js";
import type { Diagnosis, PracticePlan } from "../practice/types.js";
import type { FrequencyResponse } from "../pursuit/index.js";
import type { Recording } from "../trace/types.js";
import { planChart } from "./charts/day-plan.js";
import { endpointsChart } from "./charts/endpoints.js";
import { learningChart } from "./charts/learning-course.js";
import { excessChart } from "./charts/part-excess.js";
import { changesChart } from "./charts/period-changes.js";
import { pursuitChart } from "./charts/pursuit-response.js";
import { requireArray, requireChartRow, requireChartRows, requireResult, requireText } from "./charts/require-pieces.js";
import { sequenceChart } from "./charts/sequence-timeline.js";
import { speedAccuracyChart } from "./charts/speed-accuracy.js";
import { profileChart } from "./charts/speed-profile.js";
import type { ChartSpec } from "./charts/theme.js";
import { type TimeBudgetSet, timeBudgetChart } from "./charts/time-budget.js";
import type { MeasureCourse, SessionsComparison } from "./types.js";

const WHERE = "chartSpecs";

/** What to draw: each piece that is given makes its charts. */
export interface ChartData {
  /** Speed during one acquisition, its submovements and instants. */
  readonly profile?: { readonly recording: Recording; readonly row: Acquisition };
  /** Where the first presses of these rows fell about their targets. */
  readonly endpoints?: readonly Acquisition[];
  /** Where the time goes in each of several sets of rows. */
  readonly timeBudget?: readonly TimeBudgetSet[];
  /** Hits and scatter against movement time, and the pace to practise at. With the `trials` of the fit, scatter is shown as seen at each pace, too. */
  readonly speedAccuracy?: { readonly fit: SpeedAccuracyFit; readonly recommended?: PaceRecommendation; readonly trials?: PaceTrials };
  /** Measures over sessions: one chart each. */
  readonly courses?: readonly MeasureCourse[];
  /** Following a moving target, frequency by frequency. */
  readonly pursuit?: FrequencyResponse;
  /** Rows of one sequence, in order. */
  readonly sequence?: readonly Acquisition[];
  readonly diagnosis?: Diagnosis;
  readonly comparison?: SessionsComparison;
  readonly plan?: PracticePlan;
}

/**
 * Plots as Vega-Lite specifications: plain data that any Vega-Lite renderer draws, on a page or without one. This library draws nothing itself.
 *
 * Everything is told by position, shape, dash, lightness or a label, nothing by hue. Axes carry units, subtitles n; the description is a text alternative with the
 * figures and says what was left out or thinned (from 2000 points on). Data stand in the specification, which asks for nothing from outside; names are data, whatever
 * they hold. A piece without anything to draw gives a chart that says so.
 *
 * @param data - the pieces to draw, see `ChartData`
 * @returns one or more charts per piece, in the order of the fields above; none for no pieces
 * @throws TypeError if `data` or a piece is not of its kind, RangeError if a number in it is not finite
 * @see Vega-Lite 6 specification
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 30 });
 * const rows = analyze(recording);
 * const charts = chartSpecs({ endpoints: rows, timeBudget: [{ label: "Monday", rows }] });
 * charts.map(({ id }) => id); // => ["endpoints", "time-budget"]
 * ```
 */
export function chartSpecs(data: ChartData): ChartSpec[] {
  requireObject(WHERE, "data", data);
  const { profile, endpoints, timeBudget, speedAccuracy, courses, pursuit, sequence, diagnosis, comparison, plan } = data;
  requirePieces(data);
  return [
    ...(profile ? [profileChart(profile.recording, profile.row)] : []),
    ...(endpoints ? [endpointsChart(endpoints)] : []),
    ...(timeBudget ? [timeBudgetChart(timeBudget)] : []),
    ...(speedAccuracy ? [speedAccuracyChart(speedAccuracy.fit, speedAccuracy.recommended, speedAccuracy.trials)] : []),
    ...(courses ?? []).map(learningChart),
    ...(pursuit ? [pursuitChart(pursuit)] : []),
    ...(sequence ? [sequenceChart(sequence)] : []),
    ...(diagnosis ? [excessChart(diagnosis)] : []),
    ...(comparison ? [changesChart(comparison)] : []),
    ...(plan ? [planChart(plan)] : []),
  ];
}

function requirePieces(data: ChartData): void {
  const { profile, endpoints, timeBudget, speedAccuracy, courses, pursuit, sequence, diagnosis, comparison, plan } = data;
  if (profile !== undefined) {
    requireObject(WHERE, "data.profile", profile);
    requireObject(WHERE, "data.profile.recording", profile.recording);
    requireObject(WHERE, "data.profile.recording.space", profile.recording.space);
    requireChartRow(WHERE, "data.profile.row", profile.row);
  }
  if (endpoints !== undefined) requireChartRows(WHERE, "data.endpoints", endpoints);
  if (sequence !== undefined) requireChartRows(WHERE, "data.sequence", sequence);
  if (timeBudget !== undefined) requireArray(WHERE, "data.timeBudget", timeBudget);
  for (const [i, set] of (timeBudget ?? []).entries()) {
    requireObject(WHERE, `data.timeBudget[${i}]`, set);
    requireText(WHERE, `data.timeBudget[${i}].label`, set.label);
    requireChartRows(WHERE, `data.timeBudget[${i}].rows`, set.rows);
  }
  if (courses !== undefined) requireArray(WHERE, "data.courses", courses);
  for (const [i, course] of (courses ?? []).entries()) {
    requireResult(WHERE, `data.courses[${i}]`, course, { arrays: ["session", "value"] });
    for (const field of ["measure", "label", "unit"] as const) requireText(WHERE, `data.courses[${i}].${field}`, course[field]);
  }
  if (speedAccuracy !== undefined) {
    requireObject(WHERE, "data.speedAccuracy", speedAccuracy);
    requireResult(WHERE, "data.speedAccuracy.fit", speedAccuracy.fit, { arrays: ["paces", "curve"], objects: ["laws"] });
    const { recommended, trials } = speedAccuracy;
    if (trials !== undefined) requireObject(WHERE, "data.speedAccuracy.trials", trials);
    if (recommended !== undefined) {
      requireResult(WHERE, "data.speedAccuracy.recommended", recommended, { arrays: [], objects: ["movementTime", "bounds"] });
    }
  }
  if (pursuit !== undefined) requireResult(WHERE, "data.pursuit", pursuit, { arrays: ["frequencies"], objects: ["gain", "delay"] });
  if (diagnosis !== undefined) {
    requireResult(WHERE, "data.diagnosis", diagnosis, { arrays: ["parts", "rulings"], objects: ["verdict", "reference"] });
  }
  if (comparison !== undefined) requireResult(WHERE, "data.comparison", comparison, { arrays: ["measures"], objects: ["before", "after"] });
  if (plan !== undefined) requireResult(WHERE, "data.plan", plan, { arrays: ["items"] });
}
