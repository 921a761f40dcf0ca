import { fc, test } from "@fast-check/vitest";
import { sampleCorrelation, sampleCovariance } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { toTable } from "../../src/movement/to-table.js";
import { SESSION_MEASURES } from "../../src/report/measures/session-measures.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import { COLUMNS } from "../../src/tally/measures/columns.js";
import { DEFAULT_MEASURES, MEASURE_NAMES } from "../../src/tally/measures/measures.js";
import { readTally } from "../../src/tally/read-tally.js";
import { tally } from "../../src/tally/tally.js";
import type { MeasureTally, TallyOptions } from "../../src/tally/types.js";
import { rowOf, rowsArb } from "../movement/rows.js";
import { deepFreeze } from "../movement/simulated.js";
import { anyRowsArb, BOTH, rowWith } from "./values.js";

const only = (values: readonly number[], options: TallyOptions = BOTH): MeasureTally =>
  tally(
    values.map((value) => rowWith(value)),
    options,
  ).groups[0]!.measures.pressAfterStop!;

describe("tally against outside values", () => {
  // Source: worked by hand on six rows.
  it("counts rows, values, ranges, sums, bins and a histogram", () => {
    const rows = [
      rowWith(-2, 1),
      rowWith(0.5, 2, { flags: ["clutch"] }),
      rowWith(0.5, 3, { outcome: "miss", pressedInMotion: true }),
      rowWith(undefined, 4, { outcome: "timeout" }),
      // no boundaries: neither value means what it says
      rowWith(7, 5, { flags: ["missingData", "clutch"] }),
      rowWith(0, 6),
    ];
    const { groups } = tally(rows, BOTH);
    expect(groups).toEqual([
      {
        labels: {},
        n: 6,
        outcomes: { hit: 4, miss: 1, recovered: 0, timeout: 1, abandoned: 0 },
        flags: { clutch: 2, missingData: 1 },
        pressedInMotion: 1,
        measures: {
          peakSpeed: {
            ...{ n: 5, missing: 1, min: 1, max: 6, sum: [16], sumOfSquares: [66] },
            // 30 octaves of 128 bins lie below 1, the first of each octave from a power of two on
            bins: [1, 2, 3, 4, 6].map((value) => [3841 + 128 * Math.floor(Math.log2(value)) + (value === 3 || value === 6 ? 64 : 0), 1]),
          },
          pressAfterStop: {
            ...{ n: 4, missing: 2, min: -2, max: 0.5, sum: [-1], sumOfSquares: [4.5] },
            bins: [
              [-3969, 1],
              [0, 1],
              [3713, 2],
            ],
            histogram: [1, 0, 3, 0],
          },
        },
        joint: { n: 4, sums: [[-1], [12]], sumsOfProducts: [[4.5], [0.5], [50]] },
      },
    ]);
  });

  // Source: simple-statistics 7.12.1 sampleCovariance and sampleCorrelation on all rows.
  it("has the covariance and correlation of simple-statistics", () => {
    const x = Array.from({ length: 50 }, (_, i) => Math.sin(i * i));
    const y = x.map((value, i) => 3 * value + Math.cos(7 * i * i));
    const { joint } = readTally(
      tally(
        x.map((value, i) => rowWith(value, y[i])),
        BOTH,
      ),
    ).groups[0]!;
    expect(joint.measures).toEqual(
      ["peakSpeed", "pressAfterStop"].sort((a, b) => MEASURE_NAMES.indexOf(a as never) - MEASURE_NAMES.indexOf(b as never)),
    );
    expect(joint.covariance[0]![1]).toBeCloseTo(sampleCovariance(x, y), 13);
    expect(joint.correlation[1]![0]).toMatchObject({ ok: true, n: 50, value: expect.closeTo(sampleCorrelation(x, y), 13) });
  });

  // Source: what the report takes of a row (`SESSION_MEASURES`) and what the table shows of it, read here one by one.
  it("counts what the report and the table say of simulated rows", () => {
    const rows = analyze(simulateRecording({ seed: 5, movements: 40 }).recording);
    const table = toTable(rows);
    const { measures } = tally(rows, { measures: MEASURE_NAMES, covariances: [] }).groups[0]!;
    for (const { name, of, by } of SESSION_MEASURES.filter((measure) => measure.by === "mean")) {
      const values = rows.flatMap((row) => of(row) ?? []);
      expect(measures[name as "latency"]!.n, `${name} ${by}`).toBe(values.length);
      expect(measures[name as "latency"]!.max).toBe(values.length === 0 ? null : Math.max(...values));
    }
    for (const name of Object.keys(COLUMNS) as (keyof typeof COLUMNS)[]) {
      const values = table.flatMap((record, i) => (COLUMNS[name].counts(rows[i]!) ? (record[name] ?? []) : []));
      expect(measures[name]!.n, name).toBe(values.length);
      expect(measures[name]!.min, name).toBe(values.length === 0 ? null : Math.min(...values) + 0);
    }
  });

  // Source: worked by hand: the median of seconds after the stop has the rows of the report's spread about it.
  it("counts presses after the stop in the rows that the report takes their spread of", () => {
    const spread = SESSION_MEASURES.find(({ name }) => name === "pressTimingSd")!;
    const rows = [rowWith(0.1), rowWith(0.3, 1, { flags: ["belowResolution"] }), rowWith(undefined)];
    expect(tally(rows).groups[0]!.measures.pressAfterStop!.n).toBe(rows.filter((row) => spread.of(row) !== undefined).length);
  });
});

describe("tally properties", () => {
  test.prop([anyRowsArb])("is plain data, and the same whatever the order of rows", (rows) => {
    const options = { ...BOTH, by: { block: (row: { block: string }) => row.block, person: "a" } };
    const forward = tally(deepFreeze(rows), options);
    expect(JSON.parse(JSON.stringify(forward))).toEqual(forward);
    expect(JSON.stringify(tally([...rows].reverse(), options))).toBe(JSON.stringify(forward));
  });

  test.prop([rowsArb])("counts every row once for every measure", (rows) => {
    const { groups } = tally(rows, { by: { outcome: (row) => row.outcome } });
    expect(groups.reduce((sum, { n }) => sum + n, 0)).toBe(rows.length);
    for (const group of groups) {
      for (const { n, missing } of Object.values(group.measures)) expect(n + missing).toBe(group.n);
      expect(group.outcomes[group.labels.outcome as "hit"]).toBe(group.n);
    }
  });

  it("has one order of measures, groups and labels", () => {
    const rows = ["b", "a", "é", "10", "2"].map((block) => rowOf(1, { latency: 0.2 }, { block }));
    const by = { z: "1", block: (row: { block: string }) => row.block };
    const one = tally(rows, { measures: ["latency", "hitShare", "latency"], by });
    expect(one).toEqual(tally(rows, { measures: ["hitShare", "latency"], by: { block: by.block, z: "1" } }));
    expect(one.header.options).toMatchObject({ measures: ["hitShare", "latency"], covariances: ["latency"], labels: ["block", "z"] });
    expect(one.groups.map(({ labels }) => labels.block)).toEqual(["10", "2", "a", "b", "é"]);
    expect(tally(rows).header.options.measures).toEqual(DEFAULT_MEASURES);
  });

  it("takes room by bins, not by rows", () => {
    const values = (n: number) => Array.from({ length: n }, (_, i) => 0.05 + 1.95 * ((i * 0.6180339887498949) % 1));
    const bytes = (n: number) => JSON.stringify(only(values(n))).length;
    // six octaves of 128 bins at most, once every bin has its value
    expect(only(values(1e5)).bins.length).toBeLessThan(6 * 128);
    expect(bytes(1e5)).toBeLessThan(1.2 * bytes(2e4));
  });

  it("puts a value at an edge above it, and keeps edges that are no whole numbers", () => {
    const edges = { pressAfterStop: [-0, 0.1, 0.3] };
    expect(only([-1e-9, 0, 0.1, 0.2999999, 0.3, 5], { ...BOTH, edges }).histogram).toEqual([1, 1, 2, 2]);
  });

  test.prop([fc.integer({ min: -1000, max: 1000 }), fc.integer({ min: 0, max: 30 })])("shifts with its values", (shift, n) => {
    const values = Array.from({ length: n }, (_, i) => (i * i) % 17);
    const [plain, moved] = [values, values.map((value) => value + shift)].map((list) =>
      readTally(
        tally(
          list.map((value) => rowWith(value)),
          BOTH,
        ),
      ),
    );
    const [a, b] = [plain, moved].map((reading) => reading!.groups[0]?.measures.pressAfterStop);
    expect(b?.sd).toEqual(a?.sd);
    if (a?.mean.ok && b?.mean.ok) expect(b.mean.value - a.mean.value).toBeCloseTo(shift, 10);
  });
});

describe("tally bad input", () => {
  it.each([
    [() => tally({} as never), "tally: rows must be an array of acquisitions, got an object of type Object"],
    [() => tally([null] as never), "tally: rows[0] must be an object, got null"],
    [() => tally([rowWith(0), 3] as never), "tally: rows[1] must be an object, got 3"],
    [() => tally([], null as never), "tally: options must be an object, got null"],
    [() => tally([], { unit: 3 as never }), "tally: options.unit must be a text, got 3"],
    [() => tally([], { measures: "latency" as never }), 'tally: options.measures must be a list of names, got "latency"'],
    [() => tally([], { measures: ["speed" as never] }), 'tally: options.measures[0] must be one of "acquisitionTime", '],
    [
      () => tally([], { measures: ["latency"], covariances: ["primaryTime"] }),
      'options.covariances[0] must be one of "latency", got "primaryTime"',
    ],
    [
      () => tally([], { measures: MEASURE_NAMES, covariances: MEASURE_NAMES.slice(0, 13) }),
      "options.covariances must name at most 12 measures, got 13",
    ],
    [() => tally([], { edges: { go: [1] } }), 'a name in options.edges must be one of "acquisitionTime", '],
    [() => tally([], { edges: { latency: [] } }), "options.edges.latency must be a list of at least one number, got an array of 0"],
    [() => tally([], { edges: { latency: [0, 0.5, 0.5] } }), "options.edges.latency must ascend, got 0.5 before 0.5"],
    [() => tally([], { edges: { latency: [Number.NaN] } }), "options.edges.latency[0] must be finite, got NaN"],
    [() => tally([], { by: ["block"] as never }), "options.by must be an object with a field for each label, got an array of 1"],
    [() => tally([], { by: "block" as never }), 'options.by must be an object, got "block"'],
    [() => tally([], { by: { person: 1 as never } }), "options.by.person must be a text or a function of a row, got 1"],
    [() => tally([], { by: { row: "a" } }), 'options.by must not have a label "row"'],
    [() => tally([rowWith(0)], { by: { person: () => 1 as never } }), "options.by.person of rows[0] must be a text, got 1"],
    [() => tally([rowWith(0), rowWith(Number.NaN)], BOTH), "pressAfterStop of rows[1] must be finite and at most 1e+140 in size, got NaN"],
    [() => tally([rowWith(-2e140)], BOTH), "pressAfterStop of rows[0] must be finite and at most 1e+140 in size, got -2e+140"],
    [() => tally([rowWith(Number.POSITIVE_INFINITY)], BOTH), "got Infinity"],
  ])("%#", (call, message) => expect(call).toThrow(message));
});
