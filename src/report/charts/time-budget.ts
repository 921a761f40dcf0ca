import type { Acquisition, Budget } from "../../movement/types.js";
import { type ChartSpec, chart, INK, ms } from "./theme.js";

/** A session, or any other set of acquisitions, under its name. */
export interface TimeBudgetSet {
  readonly label: string;
  readonly rows: readonly Acquisition[];
}

/** In the order of a movement; lightness alternates, so that neighbours are told apart without colour. */
const PARTS: readonly { readonly key: keyof Budget; readonly label: string; readonly shade: string }[] = [
  { key: "latency", label: "latency", shade: INK.pale },
  { key: "primary", label: "primary", shade: INK.dark },
  { key: "correction", label: "correction", shade: INK.light },
  { key: "clutch", label: "lifting", shade: INK.paper },
  { key: "verification", label: "stop to press", shade: INK.middle },
  { key: "recovery", label: "after a miss", shade: INK.band },
];

/** Mean time per acquisition in each set, part by part, as stacked bars. Latencies below 0 (begun early) stand left of 0. */
export function timeBudgetChart(sets: readonly TimeBudgetSet[]): ChartSpec {
  const full = sets.filter(({ rows }) => rows.length > 0);
  const values = full.flatMap(({ label, rows }, set) =>
    PARTS.map(({ key, label: part }, order) => ({
      set,
      label: `${label} (n = ${rows.length})`,
      part,
      order,
      ms: ms(rows.reduce((sum, { budget }) => sum + budget[key], 0) / rows.length),
    })),
  );
  const n = full.reduce((sum, { rows }) => sum + rows.length, 0);
  const last = values.slice(-PARTS.length);
  const left = sets.length - full.length;
  const description = `Stacked bars of ${full.length} sets, ${n} acquisitions, misses and timeouts included${left > 0 ? `; ${left} sets without acquisitions left out` : ""}. ${
    last.length > 0 ? `In the last one: ${last.map((value) => `${value.part} ${value.ms.toFixed(0)} ms`).join(", ")}.` : ""
  }`;
  return chart("time-budget", "Where the time goes", `mean per acquisition, ${n} acquisitions`, description.trim(), {
    width: 480,
    height: { step: 22 },
    data: { values },
    mark: { type: "bar", stroke: INK.dark, strokeWidth: 0.7 },
    encoding: {
      y: { field: "label", type: "nominal", sort: { field: "set", op: "min" }, title: null, axis: { labelLimit: 0 } },
      x: { field: "ms", type: "quantitative", title: "time per acquisition, ms", stack: "zero" },
      order: { field: "order" },
      fill: {
        field: "part",
        type: "nominal",
        sort: PARTS.map(({ label }) => label),
        scale: { domain: PARTS.map(({ label }) => label), range: PARTS.map(({ shade }) => shade) },
        legend: { title: "from left to right", columns: 3, symbolStrokeColor: INK.dark },
      },
    },
  });
}
