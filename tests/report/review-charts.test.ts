import { describe, expect, it } from "vitest";
import { renderSvg } from "../../examples/notebooks/show.js";
import { reviewCharts } from "../../src/report/review-charts.js";
import { reviewPractice } from "../../src/report/review-practice.js";
import type { SessionSummary } from "../../src/report/types.js";
import { practised } from "./practised.js";

const steady = practised(10, (i) => ({ seed: 500 + i }));
const review = reviewPractice(steady);

describe("reviewCharts against outside values", () => {
  // Source: Vega-Lite 6.4.3 and Vega 6.4.0 draw every one of them without a warning
  it("gives charts that Vega draws", async () => {
    for (const { spec } of reviewCharts(review, steady)) expect(await renderSvg(structuredClone(spec))).toContain("<svg");
  });
});

describe("reviewCharts properties", () => {
  it("has charts for what there is", () => {
    expect(reviewCharts(review, steady).map(({ id }) => id)).toEqual([
      "endpoints",
      "time-budget",
      "course-acquisitionTime",
      "course-hitShare",
      "part-excess",
      "period-changes",
      "day-plan",
    ]);
  });
  it("shows one whole sequence where recordings of a session name their trials alike", () => {
    const [one] = practised(1, () => ({ seed: 30, sequence: 4, movements: 12 }));
    const twice = {
      ...one!,
      rows: [...one!.rows, ...one!.rows.map((row) => ({ ...row, times: { ...row.times, go: row.times.go + 500 } }))],
    };
    const chart = reviewCharts(review, [twice as SessionSummary]).find(({ id }) => id === "sequence-timeline")!;
    expect(chart.description).toContain("Time line of 4 targets");
  });
});

describe("reviewCharts bad input", () => {
  it("refuses no sessions", () => {
    expect(() => reviewCharts(review, [])).toThrow("reviewCharts: sessions must hold at least 1 session, got 0");
  });
});
