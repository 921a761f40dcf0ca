import { countOf } from "../count-of.js";
import { sayEstimate } from "../review/say.js";
import type { MeasureCourse } from "../types.js";
import { blank, type ChartSpec, chart, extent, INK, thinned } from "./theme.js";

const MOST_POINTS = 2000;

const VERDICTS = {
  improving: "still improving",
  plateau: "on a plateau",
  declining: "getting worse",
  cannotTell: "flat or not: cannot tell",
} as const;

/** A measure over the sessions, with its fitted curve, the band of the curve and that of one more session, and the verdict on a plateau. */
export function learningChart(course: MeasureCourse): ChartSpec {
  const factor = course.unit === "s" ? 1000 : course.unit === "1" ? 100 : 1;
  const unit = course.unit === "s" ? "ms" : course.unit === "1" ? "%" : course.unit;
  const n = course.value.length;
  // the verdict speaks of the recent stretch alone
  const from = course.plateau?.recent.from ?? 0;
  const points = course.value.map((value, i) => ({
    session: course.session[i]!,
    value: factor * value,
    is: i < from ? "before it" : "in the verdict",
  }));
  const drawn = thinned(points, MOST_POINTS);
  const band = (course.curve?.band ?? []).map(({ practice, value, confidence, prediction }) => ({
    session: practice,
    value: factor * value,
    low: factor * confidence[0],
    high: factor * confidence[1],
    lowest: factor * prediction[0],
    highest: factor * prediction[1],
  }));
  const reach = reachOf(points.map(({ value }) => value));
  const cut = band.some(({ lowest, highest }) => lowest < reach[0] || highest > reach[1]);
  const verdict = course.plateau === undefined ? "too few sessions for a verdict" : VERDICTS[course.plateau.verdict];
  const thin = drawn.length < n ? ` ${drawn.length} of ${n} points drawn.` : "";
  const trend = course.plateau?.evidence.trend.improvement;
  const judged =
    trend === undefined
      ? ""
      : ` Improvement over ${course.plateau!.horizon} days, by the last ${n - from} sessions: ${sayEstimate(trend)}.`;
  const [first, last] = [points[0], points[n - 1]];
  const ends = first && last ? ` From ${first.value.toFixed(1)} to ${last.value.toFixed(1)} ${unit}.` : "";
  const curve =
    band.length > 0
      ? ` The line is the fitted curve, the inner band its interval, the outer one that of one more session${cut ? "; bands reach beyond the chart" : ""}.`
      : "";
  const x = { field: "session", type: "quantitative", title: "session", axis: { tickMinStep: 1, format: "d" }, scale: { zero: false } };
  const y = (field: string) => ({
    field,
    type: "quantitative",
    title: `${course.label}, ${unit}`,
    scale: { domain: reach, nice: false, zero: false },
  });
  return chart(
    `course-${course.measure}`,
    `Course of the ${course.label}`,
    `${countOf(n, "session")} at the same difficulty; ${verdict}`,
    `Points, one per session, of ${countOf(n, "session")}: ${verdict}.${ends}${judged}${curve}${thin}`,
    n === 0
      ? blank("No session.")
      : {
          width: 480,
          height: 240,
          layer: [
            {
              data: { values: band },
              mark: { type: "area", color: INK.band, opacity: 0.6, clip: true },
              encoding: { x, y: y("lowest"), y2: { field: "highest" } },
            },
            {
              data: { values: band },
              mark: { type: "area", color: INK.pale, opacity: 0.9, clip: true },
              encoding: { x, y: y("low"), y2: { field: "high" } },
            },
            {
              data: { values: band },
              mark: { type: "line", color: INK.dark, strokeWidth: 2, clip: true },
              encoding: { x, y: y("value") },
            },
            {
              data: { values: drawn },
              mark: { type: "point", filled: true, size: 50, color: INK.dark, stroke: INK.paper, strokeWidth: 1, opacity: 1 },
              encoding: {
                x,
                y: y("value"),
                shape: {
                  field: "is",
                  type: "nominal",
                  scale: { domain: ["in the verdict", "before it"], range: ["circle", "triangle-up"] },
                  legend: from > 0 ? { title: "sessions" } : null,
                },
              },
            },
          ],
        },
  );
}

/** Ends of the axis: the values with room for bands about them. A band that is wider says so in words; drawn whole it would flatten everything else. */
function reachOf(values: readonly number[]): readonly [number, number] {
  const [low, high] = extent(values);
  const room = high > low ? 0.6 * (high - low) : Math.max(1, 0.1 * Math.abs(high));
  return values.length === 0 ? [0, 1] : [low - room, high + room];
}
