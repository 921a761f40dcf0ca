import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { renderSvg } from "../../docs/pictures.js";
import { analyze } from "../../src/movement/analyze.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import { paceTrials } from "../../src/pacing/pace-trials.js";
import { recommendPace } from "../../src/pacing/recommend-pace.js";
import { analyzePursuit } from "../../src/pursuit/analyze-pursuit.js";
import { type ChartData, chartSpecs } from "../../src/report/chart-specs.js";
import type { ChartSpec } from "../../src/report/charts/theme.js";
import { reviewPractice } from "../../src/report/review-practice.js";
import { simulatePursuit } from "../../src/simulate/simulate-pursuit.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import { practised } from "./practised.js";

const sessions = practised(9, (i) => ({ seed: 1100 + i }));
const review = reviewPractice(sessions);
const { recording } = simulateRecording({ seed: 5, movements: 30 });
const rows = analyze(recording);
const sequence = analyze(simulateRecording({ seed: 6, movements: 5, sequence: 5, planning: { overlapShare: 0.5 } }).recording);
const [pursuit] = analyzePursuit(simulatePursuit({ seed: 7, duration: 40 }).recording);
const paced = [0.7, 1, 1.4].flatMap((slow, k) =>
  analyze(
    simulateRecording({
      seed: 20 + k,
      movements: 30,
      primary: { timeIntercept: 0.12 * slow, timeSlope: 0.05 * slow, alongSd: 0.05 / slow, acrossSd: 0.025 / slow },
      correction: { pureShare: 1 },
    }).recording,
  ).map((row) => ({ ...row, block: ["fast", "usual", "slow"][k]! })),
);
const fit = fitSpeedAccuracy(paceTrials(paced).trials);

const DATA: Required<ChartData> = {
  profile: { recording, row: rows[0]! },
  endpoints: rows,
  timeBudget: [
    { label: "Monday", rows: rows.slice(0, 15) },
    { label: "Tuesday", rows: rows.slice(15) },
  ],
  speedAccuracy: { fit, recommended: recommendPace(fit, { wanted: 0.85 }) },
  courses: review.courses.slice(0, 2),
  pursuit: pursuit!.response.x,
  sequence,
  diagnosis: review.diagnosis,
  comparison: review.comparison!,
  plan: review.plan,
};
const charts = chartSpecs(DATA);
const byId = (id: string): ChartSpec => charts.find((chart) => chart.id === id)!;

/** Every object within a specification. */
function* objects(value: unknown): Generator<Record<string, unknown>> {
  if (value === null || typeof value !== "object") return;
  if (!Array.isArray(value)) yield value as Record<string, unknown>;
  for (const inner of Object.values(value)) yield* objects(inner);
}
/** All inline data rows of a specification. */
const dataOf = ({ spec }: ChartSpec): Record<string, unknown>[] =>
  [...objects(spec)].flatMap(({ data }) => (data === undefined ? [] : (data as { values: Record<string, unknown>[] }).values));

describe("chartSpecs against outside values", () => {
  // Source: Vega-Lite 6.4.3 compiles each without a warning, and Vega 6.4.0 draws it without a coordinate that is not finite
  it.each(charts.map((chart) => [chart.id, chart] as const))("%s is a specification that Vega-Lite draws", async (_, { spec }) => {
    const svg = await renderSvg(structuredClone(spec)); // Vega marks the data it is given
    expect(svg).toContain("<svg");
    expect(svg.length).toBeGreaterThan(1500);
  });
  // Source: a normal scatter holds 95 % within sqrt(-2 ln 0.05) = 2.4477 standard deviations of each ellipse axis (chi-squared table, 2 df: 5.991)
  it("draws the ellipse of 95 %", () => {
    const outline = dataOf(byId("endpoints")).filter(({ is }) => is === "95 % ellipse") as { along: number; across: number }[];
    const along = rows.flatMap(({ errors: { press }, width }) => (press?.along === undefined ? [] : press.along / width));
    const mean = along.reduce((sum, value) => sum + value, 0) / along.length;
    const sd = Math.sqrt(along.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (along.length - 1));
    // a table of 72 corners misses the outermost point by a tenth of a percent
    expect(Math.max(...outline.map((point) => point.along))).toBeCloseTo(mean + Math.sqrt(5.991) * sd, 2);
  });
});

describe("chartSpecs properties", () => {
  it("makes the charts of what is given, and of nothing else", () => {
    expect(charts.map(({ id }) => id)).toEqual([
      "speed-profile",
      "endpoints",
      "time-budget",
      "speed-accuracy",
      "course-acquisitionTime",
      "course-hitShare",
      "pursuit-response",
      "sequence-timeline",
      "part-excess",
      "period-changes",
      "day-plan",
    ]);
    expect(chartSpecs({})).toEqual([]);
    expect(chartSpecs({ plan: review.plan }).map(({ id }) => id)).toEqual(["day-plan"]);
  });
  it.each(charts.map((chart) => [chart.id, chart] as const))("%s is plain data that asks for nothing from outside", (_, chart) => {
    expect(JSON.parse(JSON.stringify(chart))).toEqual(chart);
    const { $schema, ...rest } = chart.spec;
    expect($schema).toMatch(/vega-lite\/v6/);
    expect(JSON.stringify(rest)).not.toMatch(/https?:|"url"/);
  });
  it.each(charts.map((chart) => [chart.id, chart] as const))("%s is told without hue: every colour is a grey", (_, { spec }) => {
    const colours = [...JSON.stringify(spec).matchAll(/#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/g)];
    for (const [, r, g, b] of colours) {
      const channels = [r, g, b].map((hex) => Number.parseInt(hex!, 16));
      // greys of a cool cast: no channel leaves the others by more than a twelfth of the scale
      expect(Math.max(...channels) - Math.min(...channels)).toBeLessThanOrEqual(21);
    }
    for (const object of objects(spec)) {
      const encoding = object.encoding as Record<string, { field?: string }> | undefined;
      expect(encoding?.color?.field).toBeUndefined();
    }
  });
  it("names units on its axes and n in its words", () => {
    for (const { spec, description } of charts) {
      const titles = [...objects(spec)].flatMap((object) =>
        object.type === "quantitative" && typeof object.title === "string" ? [object.title] : [],
      );
      expect(titles.length).toBeGreaterThan(0);
      expect(description).toMatch(/\d/);
    }
    expect(byId("endpoints").description).toContain("30, ");
    expect(byId("time-budget").description).toContain("30 acquisitions");
  });
  it("holds every endpoint, and every millisecond of the time budget", () => {
    expect(dataOf(byId("endpoints")).filter(({ press }) => press !== undefined)).toHaveLength(30);
    const drawn = dataOf(byId("time-budget")).filter(({ label }) => label === "Monday (n = 15)");
    const spent = rows.slice(0, 15).reduce((sum, { times }) => sum + times.end - times.go, 0) / 15;
    expect(drawn.reduce((sum, { ms }) => sum + (ms as number), 0)).toBeCloseTo(1000 * spent, 9);
  });
  it("says what it leaves out or thins", () => {
    const none = { ...rows[0]!, errors: {} };
    expect(chartSpecs({ endpoints: [...rows, none] })[0]!.description).toContain("1 acquisitions without a press or a direction left out");
    const many = Array.from({ length: 80 }, () => rows).flat();
    expect(chartSpecs({ endpoints: many })[0]!.description).toContain("2400, 2000 of them drawn");
    expect(chartSpecs({ timeBudget: [{ label: "Sunday", rows: [] }] })[0]!.description).toContain("1 sets without acquisitions left out");
  });
  test.prop([fc.double({ min: -1e4, max: 1e4, noNaN: true })], { numRuns: 10 })("shows one acquisition whenever it took place", (shift) => {
    const moved = {
      ...recording,
      trace: { ...recording.trace, t: recording.trace.t.map((t) => t + shift) },
    };
    const row = rows[3]!;
    const times = Object.fromEntries(Object.entries(row.times).map(([name, t]) => [name, t + shift])) as unknown as typeof row.times;
    const submovements = row.submovements.map((one) => ({
      ...one,
      start: one.start + shift,
      peak: one.peak + shift,
      end: one.end + shift,
    }));
    const [here] = chartSpecs({ profile: { recording, row } });
    const [there] = chartSpecs({ profile: { recording: moved, row: { ...row, times, submovements } } });
    const peaks = (chart: ChartSpec): number[] => dataOf(chart).flatMap(({ peak }) => (peak === undefined ? [] : [peak as number]));
    const bells = (chart: ChartSpec): number[] => dataOf(chart).flatMap(({ from }) => (from === undefined ? [] : [from as number]));
    expect(peaks(there!)).toEqual(peaks(here!));
    for (const [i, from] of bells(there!).entries()) expect(from).toBeCloseTo(bells(here!)[i]!, 5);
  });
  it("keeps hostile names as data", async () => {
    const label = `<script>alert(1)</script>`;
    const [chart] = chartSpecs({ timeBudget: [{ label, rows }] });
    const svg = await renderSvg(structuredClone(chart!.spec));
    expect(svg).not.toContain("<script");
  });
});

describe("chartSpecs bad input", () => {
  it.each([
    [undefined, "chartSpecs: data must be an object, got undefined"],
    [{ endpoints: "all" }, 'chartSpecs: data.endpoints must be an array, got "all"'],
    [{ plan: 3 }, "chartSpecs: data.plan must be an object, got 3"],
  ])("refuses %j", (data, message) => {
    expect(() => chartSpecs(data as ChartData)).toThrow(message);
  });
});
