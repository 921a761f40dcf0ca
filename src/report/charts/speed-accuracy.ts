import type { PaceRecommendation, SpeedAccuracyFit } from "../../pacing/index.js";
import { type ChartSpec, chart, INK, ms } from "./theme.js";

/** Share of presses that hit against movement time: counted at each pace, by the fitted scatter and by hits alone, and the pace that the wanted share asks for. */
export function speedAccuracyChart(fit: SpeedAccuracyFit, recommended?: PaceRecommendation): ChartSpec {
  const counted = fit.paces.flatMap(({ pace, movementTime, hitShare, n }) =>
    hitShare.ok
      ? [
          {
            pace: `${pace} (n = ${n})`,
            t: ms(movementTime),
            share: 100 * hitShare.value,
            low: 100 * hitShare.interval![0],
            high: 100 * hitShare.interval![1],
          },
        ]
      : [],
  );
  const curves = fit.curve.flatMap(({ movementTime, scatter, probit }) => [
    ...(scatter === null ? [] : [{ t: ms(movementTime), share: 100 * scatter, by: "by scatter and target" }]),
    ...(probit === null ? [] : [{ t: ms(movementTime), share: 100 * probit, by: "by hits alone" }]),
  ]);
  const pace = recommended?.movementTime.ok ? ms(recommended.movementTime.value) : undefined;
  const marks =
    recommended === undefined || pace === undefined
      ? []
      : [
          {
            t: pace,
            share: 100 * recommended.wanted,
            low: bound(recommended.bounds.low, pace),
            high: bound(recommended.bounds.high, pace),
            says: `${pace.toFixed(0)} ms`,
          },
        ];
  const x = (field = "t") => ({ field, type: "quantitative", title: "movement time, ms", scale: { zero: false } });
  const y = (field = "share") => ({ field, type: "quantitative", title: "first presses that hit, %", scale: { zero: false } });
  const words = counted.map((one) => `${one.pace}: ${one.share.toFixed(0)} % at ${one.t.toFixed(0)} ms`).join("; ");
  const advice =
    recommended === undefined || pace === undefined
      ? "No pace can be recommended from these."
      : `${(100 * recommended.wanted).toFixed(0)} % take ${pace.toFixed(0)} ms${recommended.verdict === "clear" ? "" : ", which is not to be leaned on"}.`;
  return chart(
    "speed-accuracy",
    "Speed and accuracy",
    `n = ${fit.n}; bars are intervals; diamond: the pace for the wanted share`,
    `Share of hits against movement time at ${counted.length} paces, ${fit.n} trials, ${fit.timeouts} of them without a press. ${words}. ${advice}`,
    {
      width: 440,
      height: 260,
      layer: [
        {
          data: { values: curves },
          mark: { type: "line", color: INK.middle, strokeWidth: 2 },
          encoding: { x: x(), y: y(), strokeDash: { field: "by", type: "nominal", legend: { title: null, labelLimit: 300 } } },
        },
        { data: { values: counted }, mark: { type: "rule", color: INK.dark }, encoding: { x: x(), y: y("low"), y2: { field: "high" } } },
        {
          data: { values: counted },
          mark: { type: "point", size: 90, color: INK.dark, strokeWidth: 2, opacity: 1 },
          encoding: {
            x: x(),
            y: y(),
            shape: { field: "pace", type: "nominal", sort: null, legend: { title: "pace", columns: 2, labelLimit: 300 } },
          },
        },
        {
          data: { values: marks },
          mark: { type: "rule", strokeWidth: 3, color: INK.light },
          encoding: { x: x("low"), x2: { field: "high" }, y: y() },
        },
        {
          data: { values: marks },
          mark: {
            type: "point",
            shape: "diamond",
            filled: true,
            size: 150,
            color: INK.paper,
            stroke: INK.dark,
            strokeWidth: 2,
            opacity: 1,
          },
          encoding: { x: x(), y: y() },
        },
        {
          data: { values: marks },
          mark: { type: "text", dy: 18, fontSize: 12, fontWeight: "bold", color: INK.dark },
          encoding: { x: x(), y: y(), text: { field: "says" } },
        },
      ],
    },
  );
}

/** An open end is drawn to the pace itself: no bar says more than is known. */
function bound(seconds: number | null, pace: number): number {
  return seconds === null ? pace : ms(seconds);
}
