import type { Acquisition } from "../../movement/types.js";
import { budgetStretches, stretchFill } from "./budget-stretches.js";
import { blank, type ChartSpec, chart, INK, ms } from "./theme.js";

/** One sequence of targets in time: a line for each target, from the press before to its own. A departure before the press before it begins left of that press. */
export function sequenceChart(rows: readonly Acquisition[]): ChartSpec {
  const stretches = budgetStretches("before departure");
  const start = rows[0]?.times.go ?? 0;
  const bars = rows.flatMap(({ times, budget, target }, order) => {
    let at = times.go + Math.min(0, budget.latency);
    return stretches.flatMap(({ key, label }) => {
      const length = key === "latency" ? Math.max(0, budget.latency) : budget[key];
      const bar = { order, target: `${order + 1}. ${target}`, stretch: label, from: ms(at - start), to: ms(at + length - start) };
      at += length;
      return length > 0 ? [bar] : [];
    });
  });
  const presses = rows.flatMap(({ times, outcome, target }, order) =>
    times.press === undefined
      ? []
      : [{ order, target: `${order + 1}. ${target}`, t: ms(times.press - start), press: outcome === "hit" ? "hit" : "missed first" }],
  );
  const early = rows.flatMap(({ times, budget, target }, order) =>
    order > 0 && budget.latency < 0
      ? [
          {
            order,
            target: `${order + 1}. ${target}`,
            from: ms(times.go + budget.latency - start),
            says: `${ms(-budget.latency).toFixed(0)} ms early`,
          },
        ]
      : [],
  );
  const last = rows[rows.length - 1];
  const whole = last === undefined ? 0 : ms(last.times.end - start);
  const y = { field: "target", type: "nominal", sort: { field: "order", op: "min" }, title: null, axis: { labelLimit: 0 } };
  return chart(
    "sequence-timeline",
    "One sequence of targets",
    `${rows.length} targets in ${whole.toFixed(0)} ms; marks are first presses`,
    `Time line of ${rows.length} targets, ${whole.toFixed(0)} ms in all; ${early.length} departures before the press on the target before.`,
    rows.length === 0
      ? blank("No target.")
      : {
          width: 480,
          height: { step: 26 },
          layer: [
            {
              data: { values: bars },
              mark: { type: "bar", stroke: INK.dark, strokeWidth: 0.7, height: { band: 0.7 } },
              encoding: {
                y,
                x: { field: "from", type: "quantitative", title: "time since the targets were shown, ms" },
                x2: { field: "to" },
                fill: stretchFill("stretch", stretches),
              },
            },
            {
              data: { values: presses },
              mark: { type: "point", filled: true, size: 80, color: INK.dark, stroke: INK.paper, opacity: 1 },
              encoding: {
                y,
                x: { field: "t", type: "quantitative" },
                shape: {
                  field: "press",
                  type: "nominal",
                  scale: { domain: ["hit", "missed first"], range: ["circle", "cross"] },
                  legend: { title: "first press" },
                },
              },
            },
            {
              data: { values: early },
              mark: { type: "text", align: "right", dx: -5, fontSize: 11, color: INK.dark },
              encoding: { y, x: { field: "from", type: "quantitative" }, text: { field: "says" } },
            },
          ],
        },
  );
}
