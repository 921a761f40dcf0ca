import { meanEstimate } from "../../math/mean-estimate.js";
import type { Acquisition, Budget } from "../../movement/types.js";
import { hasBoundaries } from "../../movement/unsound-rows.js";
import { countOf } from "../count-of.js";
import { sayEstimate } from "../review/say.js";
import { type BudgetStretch, budgetStretches, stretchFill } from "./budget-stretches.js";
import { blank, type ChartSpec, chart, distinct, INK, ms, thinned } from "./theme.js";

/** A session, or any other set of acquisitions, under its name. */
export interface TimeBudgetSet {
  readonly label: string;
  readonly rows: readonly Acquisition[];
}

/** Bars drawn at most. */
const MOST_SETS = 200;

/** Mean time per acquisition in each set, part by part, as stacked bars. Latencies below 0 (begun early) stand left of 0. */
export function timeBudgetChart(sets: readonly TimeBudgetSet[]): ChartSpec {
  const parts = budgetStretches("latency");
  const full = sets.filter(({ rows }) => rows.length > 0);
  const drawn = thinned(full, MOST_SETS);
  const labels = distinct(drawn.map(({ label, rows }) => `${label} (n = ${rows.length})`));
  const values = drawn.flatMap(({ rows }, set) =>
    parts.map(({ key, label: part }, order) => ({ set, label: labels[set]!, part, order, ms: ms(meanOf(rows, key)) })),
  );
  const totals = labels.map((label, set) => {
    const own = values.filter((value) => value.set === set);
    const sum = own.reduce((all, value) => all + value.ms, 0);
    return { set, label, reach: own.reduce((all, value) => all + Math.max(0, value.ms), 0), total: `${sum.toFixed(0)} ms` };
  });
  const y = { field: "label", type: "nominal", sort: { field: "set", op: "min" }, title: null, axis: { labelLimit: 0 } };
  const n = full.reduce((sum, { rows }) => sum + rows.length, 0);
  return chart(
    "time-budget",
    "Where the time goes",
    `mean per acquisition, ${countOf(n, "acquisition")}`,
    describe(sets, full, drawn.length, n, parts),
    full.length === 0
      ? blank("No acquisitions.")
      : {
          width: 480,
          height: { step: 22 },
          layer: [
            {
              data: { values },
              mark: { type: "bar", stroke: INK.dark, strokeWidth: 0.7 },
              encoding: {
                y,
                x: { field: "ms", type: "quantitative", title: "time per acquisition, ms", stack: "zero" },
                order: { field: "order" },
                fill: stretchFill("part", parts),
              },
            },
            {
              data: { values: totals },
              mark: { type: "text", align: "left", dx: 5, fontSize: 11, color: INK.dark },
              encoding: { y, x: { field: "reach", type: "quantitative" }, text: { field: "total" } },
            },
          ],
        },
  );
}

function meanOf(rows: readonly Acquisition[], part: keyof Budget): number {
  return rows.reduce((sum, { budget }) => sum + budget[part], 0) / rows.length;
}

function describe(
  sets: readonly TimeBudgetSet[],
  full: readonly TimeBudgetSet[],
  drawn: number,
  n: number,
  parts: readonly BudgetStretch[],
): string {
  const left = sets.length - full.length;
  // their whole time stands in one or two parts
  const untold = full.flatMap(({ rows }) => rows.filter((row) => !hasBoundaries(row))).length;
  const last = full[full.length - 1];
  const figure = (rows: readonly Acquisition[], { key, label }: BudgetStretch): string => {
    const values = rows.map(({ budget }) => budget[key]);
    const mean = meanEstimate(values, "s");
    // one acquisition has a time but no interval, and nor has a part that nobody ever had
    if (mean.ok && mean.interval![0] < mean.interval![1]) return `${label} ${sayEstimate(mean)}`;
    return `${label} ${ms(meanOf(rows, key)).toFixed(0)} ms`;
  };
  return [
    `Stacked bars of ${countOf(full.length, "set")}${drawn < full.length ? `, ${drawn} of them drawn` : ""}, ${countOf(n, "acquisition")}, misses and timeouts included`,
    left > 0 ? `; ${countOf(left, "set")} without acquisitions left out` : "",
    untold > 0 ? `; ${countOf(untold, "acquisition")}, sampled too sparsely to divide, in one or two parts with the whole time` : "",
    last === undefined ? "." : `. In the last one, with 95 % intervals: ${parts.map((part) => figure(last.rows, part)).join(", ")}.`,
  ].join("");
}
