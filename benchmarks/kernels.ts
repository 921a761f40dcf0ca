// The small routines that well-kept libraries of the registry also offer: ours is at least as fast as the fastest of them, or is that library.
import { parse as parseCsv } from "csv-parse/sync";
import { quantile as d3Quantile } from "d3-array";
import Radix from "fft.js";
import { FFT as MlFourier } from "ml-fft";
import { MultivariateLinearRegression, SimpleLinearRegression } from "ml-regression";
import papaparse from "papaparse";
import { median, quantile as simpleQuantile, linearRegression as simpleRegression } from "simple-statistics";
import { inferSchema, initParser } from "udsv";
import { fourierPlan } from "../src/math/fourier.js";
import { linearRegression } from "../src/math/linear-regression.js";
import { quantileEstimate } from "../src/math/quantile-estimate.js";
import { createRandom } from "../src/math/random.js";
import { parseRecording } from "../src/trace/index.js";
import type { Figure } from "../tests/validation/figure.js";

const VALUES = 1e6;
const ROWS = 1e5;
const LINES = 1e5;
/** A time of day in milliseconds since 1970 is farther out. */
const FAR = 1e9;
const TRANSFORM = 2 ** 16;
/** Room for the noise of a shared machine between two equally fast routines. */
const NOISE = 0.9;

/** A routine and what of its result must agree with ours. */
type Rival = readonly [name: string, call: () => number];

export async function run(): Promise<Figure[]> {
  return [quantileOfMany(), oneColumn(), threeColumns(), transform(), tableOfSamples()];
}

/** Calls of each side, in turns. */
const ROUNDS = 9;

/** The fastest rival's time against ours; every rival must give our result within `tolerance`, relative. */
function race(what: string, ours: () => number, rivals: readonly Rival[], tolerance: number): Figure {
  const sides = [["ours", ours] as Rival, ...rivals].map(([name, call]) => ({ name, call, value: call(), times: [] as number[] }));
  const [mine, ...theirs] = sides as [(typeof sides)[0], ...typeof sides];
  for (const { name, value } of theirs) {
    const agrees = Math.abs(value - mine.value) <= tolerance * Math.abs(mine.value);
    if (!agrees) throw new Error(`${what}: ${name} gives ${value}, ours ${mine.value}`);
  }
  for (let round = 0; round < ROUNDS; round++) {
    for (const { call, times } of sides) {
      const begin = performance.now();
      call();
      times.push(performance.now() - begin);
    }
  }
  const value = Math.min(...theirs.map(({ times }) => median(times))) / median(mine.times);
  const source = sides.map(({ name, times }) => `${name} ${median(times).toPrecision(3)} ms`).join(", ");
  return { name: `scale/${what}, times the fastest library's time`, value, bar: `>= ${NOISE}`, ok: value >= NOISE, source };
}

function quantileOfMany(): Figure {
  const random = createRandom(20261126);
  const values = Float64Array.from({ length: VALUES }, () => random.normal());
  const list = Array.from(values);
  return race(
    "95 % quantile of 1e6 values with its interval",
    () => {
      const estimate = quantileEstimate(values, 0.95, "1");
      return estimate.ok ? estimate.value : Number.NaN;
    },
    [
      ["simple-statistics 7.12.1", () => simpleQuantile(list, 0.95)],
      ["d3-array 3.2.5", () => d3Quantile(values, 0.95)!],
    ],
    // simple-statistics takes the next value up where ours goes on a straight line between two
    1e-4,
  );
}

/** Rows of three columns that follow a line with noise. */
function drawRows(): { readonly columns: Float64Array[]; readonly y: Float64Array } {
  const random = createRandom(20261127);
  const columns = Array.from({ length: 3 }, () => Float64Array.from({ length: ROWS }, () => random.normal()));
  const y = Float64Array.from(
    { length: ROWS },
    (_, i) => 1 + columns.reduce((sum, column, j) => sum + (j + 1) * column[i]!, random.normal()),
  );
  return { columns, y };
}

/** Printed: the libraries give a slope without its error, and one of them no digit of it where the values lie far from 0. */
function oneColumn(): Figure {
  const { columns, y } = drawRows();
  const x = columns[0]!;
  const sides = (offset: number) => {
    const moved = x.map((value) => value + offset);
    const pairs = Array.from(moved, (value, i) => [value, y[i]!]);
    const [listX, listY] = [Array.from(moved), Array.from(y)];
    return [
      () => linearRegression([moved], y)!.coefficients[1]!,
      () => simpleRegression(pairs).m,
      () => new SimpleLinearRegression(listX, listY).slope,
    ] as const;
  };
  const [ours, simple, ml] = sides(0);
  const truth = ours();
  const digits = sides(FAR).map((slope) => Math.max(0, -Math.log10(Math.abs(slope() / truth - 1))).toFixed(0));
  const rivals: Rival[] = [
    ["simple-statistics 7.12.1", simple],
    ["ml-regression 6.3.0", ml],
  ];
  const figure = race("slope of a line through 1e5 points", ours, rivals, 1e-9);
  return {
    ...figure,
    bar: "printed",
    ok: true,
    source: `${figure.source}, both without errors; digits of the slope ${FAR} from 0: ${digits.join(", ")}`,
  };
}

function threeColumns(): Figure {
  const { columns, y } = drawRows();
  const rows = Array.from(y, (_, i) => columns.map((column) => column[i]!));
  const responses = Array.from(y, (value) => [value]);
  return race(
    "regression of 1e5 rows on three columns with its errors",
    () => linearRegression(columns, y)!.coefficients[3]!,
    [["ml-regression 6.3.0", () => new MultivariateLinearRegression(rows, responses).weights[2]![0]!]],
    1e-9,
  );
}

function transform(): Figure {
  const random = createRandom(20261128);
  const signal = Float64Array.from({ length: TRANSFORM }, () => random.normal());
  const list = Array.from(signal);
  const plan = fourierPlan(TRANSFORM);
  const radix = new Radix(TRANSFORM);
  const out = radix.createComplexArray();
  MlFourier.init(TRANSFORM);
  return race(
    "transform of 65536 values",
    () => plan(signal).re[5]!,
    [
      [
        "fft.js 4.0.4, which ours is",
        () => {
          radix.realTransform(out, list);
          return out[10]!;
        },
      ],
      [
        "ml-fft 1.3.5",
        () => {
          const re = list.slice();
          MlFourier.fft(re, new Array(TRANSFORM).fill(0));
          return re[5]!;
        },
      ],
    ],
    1e-6,
  );
}

/** All end with columns of numbers, as ours does; what makes ours larger is that it checks the order of time and finiteness. */
function tableOfSamples(): Figure {
  const random = createRandom(20261129);
  let text = "t,x,y\n";
  for (let i = 0; i < LINES; i++)
    text += `${(i / 1000).toFixed(6)},${(900 + 100 * random.normal()).toFixed(2)},${(500 + 100 * random.normal()).toFixed(2)}\n`;
  const columnsOf = (rows: Iterable<Record<string, number>>): number => {
    const columns = [0, 1, 2].map(() => new Float64Array(LINES));
    let i = 0;
    for (const { t, x, y } of rows) {
      columns[0]![i] = t!;
      columns[1]![i] = x!;
      columns[2]![i++] = y!;
    }
    return sum(columns);
  };
  return race(
    "table of 1e5 samples read into columns",
    () => {
      const { trace } = parseRecording({ samples: text }).session.recordings[0]!;
      return sum([trace.t, trace.x, trace.y]);
    },
    [
      [
        "papaparse 5.7.1",
        () => columnsOf(papaparse.parse<Record<string, number>>(text, { header: true, dynamicTyping: true, skipEmptyLines: true }).data),
      ],
      [
        "csv-parse 7.0.3",
        () =>
          columnsOf(
            parseCsv(text, { columns: true, cast: (value, { header }) => (header ? value : Number(value)) }) as Record<string, number>[],
          ),
      ],
      [
        "udsv 0.7.3",
        () => {
          const [t, x, y] = initParser(inferSchema(text)).typedCols(text) as [number[], number[], number[]];
          return sum([t, x, y].map((column) => Float64Array.from(column)));
        },
      ],
    ],
    1e-9,
  );
}

function sum(columns: readonly Float64Array[]): number {
  let total = 0;
  for (const column of columns) for (const value of column) total += value;
  return total;
}
