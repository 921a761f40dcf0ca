import { readFileSync } from "node:fs";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { renderSvg } from "../../examples/notebooks/show.js";
import { analyze } from "../../src/movement/analyze.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import { paceTrials } from "../../src/pacing/pace-trials.js";
import { recommendPace } from "../../src/pacing/recommend-pace.js";
import { analyzePursuit } from "../../src/pursuit/analyze-pursuit.js";
import { type ChartData, chartSpecs } from "../../src/report/chart-specs.js";
import { lawBand } from "../../src/report/charts/law-band.js";
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
const { trials } = paceTrials(paced);
const fit = fitSpeedAccuracy(trials);

const DATA: Required<ChartData> = {
  profile: { recording, row: rows[0]! },
  endpoints: rows,
  timeBudget: [
    { label: "Monday", rows: rows.slice(0, 15) },
    { label: "Tuesday", rows: rows.slice(15) },
  ],
  speedAccuracy: { fit, recommended: recommendPace(fit, { wanted: 0.85 }), trials },
  courses: review.courses.slice(0, 2),
  pursuit: pursuit!.response.x,
  sequence,
  diagnosis: review.diagnosis,
  comparison: review.comparison!,
  plan: review.plan,
};
const charts = chartSpecs(DATA);
/** What is left of each piece where nothing could be measured. */
const EMPTY: ChartSpec[] = [
  ...chartSpecs({
    profile: { recording: { ...recording, trace: { t: new Float64Array(), x: new Float64Array(), y: new Float64Array() } }, row: rows[0]! },
  }),
  ...chartSpecs({ endpoints: [], timeBudget: [], sequence: [] }),
  ...chartSpecs({ speedAccuracy: { fit: fitSpeedAccuracy(paceTrials([]).trials) } }),
  ...chartSpecs({ courses: [{ measure: "none", label: "measure", unit: "s", session: [], day: [], value: [] }] }),
  ...chartSpecs({ pursuit: { ...pursuit!.response.x, frequencies: [] } }),
  ...chartSpecs({
    pursuit: { ...pursuit!.response.x, frequencies: pursuit!.response.x.frequencies.filter(({ aboveChance }) => !aboveChance) },
  }),
  ...chartSpecs({
    diagnosis: { ...review.diagnosis, parts: [] },
    comparison: { ...review.comparison!, measures: [] },
    plan: { ...review.plan, items: [] },
  }),
];
/** The judge of the official schema comes with another tool; without it compiling is the outside check. */
const JUDGE: string = "ajv";
const { default: judge } = await import(JUDGE).catch(() => ({ default: undefined }));
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
  // Source: the official JSON schema of Vega-Lite 6.4.3, judged by ajv 8
  it.skipIf(judge === undefined)("are what the official schema of Vega-Lite allows", { timeout: 120_000 }, () => {
    const schema = JSON.parse(readFileSync(new URL("../../node_modules/vega-lite/build/vega-lite-schema.json", import.meta.url), "utf8"));
    const valid = new (judge.default ?? judge)({ strict: false, validateFormats: false }).compile(schema);
    for (const { id, spec } of [...charts, ...EMPTY])
      expect(valid(structuredClone(spec)), `${id}: ${JSON.stringify(valid.errors)}`).toBe(true);
    expect(valid({ ...charts[0]!.spec, layer: [{ mark: "blot" }] })).toBe(false);
  });
  // Source: Vega 6.4.0 warns of every scale without data
  it.each(EMPTY.map((chart) => [chart.id, chart] as const))("%s is drawn where nothing could be measured", async (_, { spec }) => {
    expect(await renderSvg(structuredClone(spec))).toContain("<svg");
  });
  // Source: textbook, |1 - G e^(i phi)| is the error's share of a target's motion that is followed with gain G and phase phi: 1 - G without lag, 2 sin(phi/2) at gain 1
  it("draws the error that gain and phase leave", () => {
    const [line] = pursuit!.response.x.frequencies.filter(({ aboveChance }) => aboveChance);
    const errorAt = (gain: number, phase: number): unknown => {
      const at = { ...line!, gain: { ...line!.gain, value: gain }, phaseDeg: { ...line!.phaseDeg, value: phase } } as typeof line & object;
      const [chart] = chartSpecs({ pursuit: { ...pursuit!.response.x, frequencies: [at] } });
      return dataOf(chart!).find(({ error }) => error !== undefined)?.error;
    };
    expect(errorAt(0.8, 0)).toBeCloseTo(0.2, 12);
    expect(errorAt(1, -60)).toBeCloseTo(2 * Math.sin(Math.PI / 6), 12);
    expect(errorAt(0.5, -180)).toBeCloseTo(1.5, 12);
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
    const drawn = dataOf(byId("time-budget")).filter(({ label, ms }) => label === "Monday (n = 15)" && ms !== undefined);
    const spent = rows.slice(0, 15).reduce((sum, { times }) => sum + times.end - times.go, 0) / 15;
    expect(drawn.reduce((sum, { ms }) => sum + (ms as number), 0)).toBeCloseTo(1000 * spent, 9);
  });
  it("says what it leaves out or thins", () => {
    const none = { ...rows[0]!, errors: {} };
    expect(chartSpecs({ endpoints: [...rows, none] })[0]!.description).toContain("1 acquisition without a press or a direction left out");
    const many = Array.from({ length: 80 }, () => rows).flat();
    expect(chartSpecs({ endpoints: many })[0]!.description).toContain("2400, 2000 of them drawn");
    expect(chartSpecs({ timeBudget: [{ label: "Sunday", rows: [] }] })[0]!.description).toContain("1 set without acquisitions left out");
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
  it.each([
    "<script>alert(1)</script>",
    "</text><image href='x' onerror='alert(1)'>",
    `datum["part"] + '"; \\`,
    "zero \0, escape \u001b[31m, turned \u202e, half \ud800, line\nend",
  ])("keeps a hostile name as data: %j", async (name) => {
    const named = { ...sequence[0]!, target: name };
    const block = (row: (typeof paced)[number]) => ({ ...row, block: row.block === "fast" ? name : row.block });
    for (const chart of chartSpecs({
      timeBudget: [{ label: name, rows }],
      sequence: [named],
      speedAccuracy: { fit: fitSpeedAccuracy(paceTrials(paced.map(block)).trials) },
    })) {
      const svg = await renderSvg(structuredClone(chart.spec));
      expect(svg).not.toMatch(/<script|<image/);
      // characters that no XML document may hold, and those that turn the text around them
      expect(svg.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Surrogate}\u202a-\u202e]/u);
      expect(JSON.parse(JSON.stringify(chart))).toEqual(chart);
    }
  });
  it("draws a band that meets a wanted share where the interval of its pace ends", () => {
    const band = lawBand(fit);
    const wanted = band[20]!.share;
    const { low, high } = recommendPace(fit, { wanted }).bounds;
    // the band is known at 41 times, so that an end lies between two of them
    const first = band.findIndex(({ highShare }) => highShare >= wanted);
    const last = band.findIndex(({ lowShare }) => lowShare > wanted);
    expect(first).toBeGreaterThan(0);
    expect(low!).toBeGreaterThanOrEqual(band[first - 1]!.t);
    expect(low!).toBeLessThanOrEqual(band[first]!.t);
    if (high !== null && last >= 0) {
      expect(high).toBeGreaterThanOrEqual(band[last - 1]!.t);
      expect(high).toBeLessThanOrEqual(band[last]!.t);
    }
    for (const { share, lowShare, highShare, sd, lowSd, highSd } of band) {
      expect(lowShare).toBeLessThan(share);
      expect(highShare).toBeGreaterThan(share);
      expect(lowSd).toBeLessThan(sd);
      expect(highSd).toBeGreaterThan(sd);
    }
  });
  it("tells sets of one name apart", () => {
    const twice = [0, 15].map((from) => ({ label: "2026-03-02", rows: rows.slice(from, from + 15) }));
    const labels = dataOf(chartSpecs({ timeBudget: twice })[0]!).map(({ label }) => label);
    expect([...new Set(labels)]).toEqual(["2026-03-02 (n = 15)", "2026-03-02 (n = 15) (2)"]);
  });
  it.each([2, 3, 5, 30])("draws the ellipse of %i presses within the axes", (n) => {
    const [chart] = chartSpecs({ endpoints: rows.slice(0, n) });
    const [low, high] = [...objects(chart!.spec)].flatMap(({ domain }) =>
      Array.isArray(domain) && typeof domain[0] === "number" ? [domain as number[]] : [],
    )[0]!;
    for (const { along, across } of dataOf(chart!) as { along: number; across: number }[]) {
      expect(Math.min(along, across)).toBeGreaterThan(low!);
      expect(Math.max(along, across)).toBeLessThan(high!);
    }
  });
  it("shows all panels of a pursuit over one range of frequencies", () => {
    const domains = [...objects(byId("pursuit-response").spec)].flatMap(({ field, scale }) =>
      field === "hz" ? [JSON.stringify(scale)] : [],
    );
    expect(domains.length).toBeGreaterThan(4);
    expect(new Set(domains).size).toBe(1);
  });
  it("gives every shade that stands for something a label, a position or an outline beside it", () => {
    for (const { spec } of charts) {
      for (const { fill } of [...objects(spec)].flatMap(({ encoding }) =>
        encoding === undefined ? [] : [encoding as { fill?: { field?: string; legend?: object; scale?: unknown } }],
      )) {
        // bars of one line lie in the fixed order that the legend tells; those of a plan have a line of their own each
        if (fill?.field !== undefined && fill.scale !== null) expect(fill.legend).toMatchObject({ title: "from left to right" });
      }
    }
  });
  it("takes more presses than one call has arguments for", { timeout: 60_000 }, () => {
    const many = Array.from({ length: 5000 }, () => rows).flat();
    expect(chartSpecs({ endpoints: many })[0]!.description).toContain("150000, 2000 of them drawn");
  });
  it("says how far the pace is known, and which instants share a label", () => {
    expect(byId("speed-accuracy").description).toMatch(/interval from \d+ ms to (\d+ ms|open)/);
    const row = { ...rows[0]!, times: { ...rows[0]!.times, press: rows[0]!.times.stop! + 0.001 } };
    const names = dataOf(chartSpecs({ profile: { recording, row } })[0]!).map(({ name }) => name);
    expect(names).toContain("stop, press");
  });
});

describe("chartSpecs bad input", () => {
  it.each([
    [undefined, "chartSpecs: data must be an object, got undefined"],
    [{ endpoints: "all" }, 'chartSpecs: data.endpoints must be an array, got "all"'],
    [{ plan: 3 }, "chartSpecs: data.plan must be an object, got 3"],
    [{ endpoints: [null] }, "chartSpecs: data.endpoints[0] must be an object, got null"],
    [{ endpoints: [{ ...rows[0], width: Number.NaN }] }, "chartSpecs: data.endpoints[0].width must be finite and above 0, got NaN"],
    [{ sequence: [{}] }, "chartSpecs: data.sequence[0].times must be an object, got undefined"],
    [{ timeBudget: [{ label: 3, rows }] }, "chartSpecs: data.timeBudget[0].label must be a text, got 3"],
    [
      { timeBudget: [{ label: "a", rows: [{ ...rows[0], budget: { ...rows[0]!.budget, primary: Number.NaN } }] }] },
      "chartSpecs: data.timeBudget[0].rows[0].budget.primary must be finite, got NaN",
    ],
    [{ profile: { recording } }, "chartSpecs: data.profile.row must be an object, got undefined"],
    [{ speedAccuracy: {} }, "chartSpecs: data.speedAccuracy.fit must be an object, got undefined"],
    [{ courses: [{}] }, "chartSpecs: data.courses[0].session must be an array, got undefined"],
    [
      { courses: [{ ...review.courses[0], value: [1, Number.POSITIVE_INFINITY] }] },
      "chartSpecs: data.courses[0].value[1] must be finite, got Infinity",
    ],
    [{ pursuit: {} }, "chartSpecs: data.pursuit.frequencies must be an array, got undefined"],
    [{ diagnosis: {} }, "chartSpecs: data.diagnosis.parts must be an array, got undefined"],
    [{ comparison: {} }, "chartSpecs: data.comparison.measures must be an array, got undefined"],
    [{ plan: { ...review.plan, minutes: Number.NaN } }, "chartSpecs: data.plan.minutes must be finite, got NaN"],
  ])("refuses %#", (data, message) => {
    expect(() => chartSpecs(data as unknown as ChartData)).toThrow(message);
  });
});
