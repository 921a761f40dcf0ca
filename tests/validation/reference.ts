// The reference tables of filters, derivatives, grids, edges and peaks: for each the largest difference as a share of the tolerance stored beside
// it, so that 1 is the limit. The tests of the same names assert every value; here is how much room there is.
import { findBouts } from "../../src/movement/bell/bouts.js";
import { fallAfter, riseBefore } from "../../src/movement/bell/onset.js";
import { findPeaks } from "../../src/movement/bell/peaks.js";
import { differentiate } from "../../src/trace/differentiate.js";
import { lowpass } from "../../src/trace/lowpass.js";
import { resample } from "../../src/trace/resample.js";
import { savitzkyGolay } from "../../src/trace/savitzky-golay.js";
import { compose } from "../movement/bells.js";
import { type ReferenceCase, readReference } from "../shared.js";
import type { Outcome } from "./figure.js";

/** Got and expected, in pairs. */
type Pairs = readonly (readonly [got: number, expected: number])[];

const EDGES = { interp: "polynomial", mirror: "mirror", nearest: "nearest", constant: "constant", wrap: "wrap" } as const;

export async function figures(): Promise<readonly Outcome[]> {
  return [
    table("trace/zero-lag filter, all paddings", "butterworth", "zero-lag", "SciPy 1.10.1 filtfilt, sosfiltfilt", filtered),
    table("trace/local polynomials, all edges", "savitzky-golay", "filter", "SciPy 1.10.1 savgol_filter", polynomial),
    table("trace/first and second differences", "derivatives", /^first|^exactness/, "NumPy 1.24.2 gradient", differences),
    table("trace/even grid, linear and monotone", "resampling", "", "NumPy 1.24.2 interp, SciPy 1.10.1 PchipInterpolator", gridded),
    table("movement/threshold and extrapolated edges", "segmentation", "one movement", "closed form and least squares", edges),
    table("movement/bouts with hysteresis and merging", "segmentation", "bouts", "closed form", bouts),
    table("movement/indices of peaks", "submovements", "composed", "SciPy 1.10.1 find_peaks", peaks),
  ];
}

function table(name: string, file: string, cases: string | RegExp, origin: string, compare: (c: ReferenceCase) => Pairs): Outcome {
  const full = `${name}, largest difference over tolerance`;
  const reference = readReference(`kinematics/${file}.json`);
  if (reference === undefined) return { name: full, skipped: "the reference tables" };
  const chosen = reference.cases.filter((c) => (typeof cases === "string" ? c.name.startsWith(cases) : cases.test(c.name)));
  let worst = 0;
  let count = 0;
  for (const c of chosen) {
    for (const [got, expected] of compare(c)) {
      const share = Math.abs(got - expected) / (c.tolerance.abs + c.tolerance.rel * Math.abs(expected));
      // a value that is missing or not a number fails
      worst = share >= 0 ? Math.max(worst, share) : Number.MAX_VALUE;
      count++;
    }
  }
  const source = `${origin}; reference/kinematics/${file}.json, ${chosen.length} cases, ${count} values`;
  return { name: full, value: worst, bar: "<= 1", ok: count > 0 && worst <= 1, source };
}

function zip(got: ArrayLike<number>, expected: readonly number[]): Pairs {
  return [[got.length, expected.length], ...expected.map((value, i) => [got[i] ?? Number.NaN, value] as const)];
}

function filtered({ input, params, expected }: ReferenceCase): Pairs {
  const { sampleRateHz, cutoffHz, orderPerPass: order, padType: padding, padLength } = params;
  return zip(
    lowpass(Float64Array.from(input.x), { sampleRateHz, cutoffHz, order, padding, padLength, correctForPasses: false }),
    expected.y,
  );
}

function polynomial({ input, params, expected }: ReferenceCase): Pairs {
  const { window, degree, derivative, delta } = params;
  const edges = EDGES[params.edges as keyof typeof EDGES];
  return zip(savitzkyGolay(Float64Array.from(input.x), { window, degree, derivative, edges, sampleRateHz: 1 / delta }), expected.y);
}

function differences({ input, expected }: ReferenceCase): Pairs {
  const t = Float64Array.from(input.t);
  const x = Float64Array.from(input.x);
  const first = ([1, 2] as const).flatMap((edgeOrder) => {
    const values = expected[`firstEdgeOrder${edgeOrder}`];
    return values === undefined ? [] : zip(differentiate(x, { t, edgeOrder }), values);
  });
  return [...first, ...zip(differentiate(x, { t, order: 2 }).subarray(1, x.length - 1), expected.secondInterior)];
}

function gridded({ input, params, expected }: ReferenceCase): Pairs {
  const times: number[] = params.queryTimes ?? expected.t;
  const sampleRateHz = params.sampleRateHz ?? 1 / (times[1]! - times[0]!);
  const trace = { t: Float64Array.from(input.t), x: Float64Array.from(input.x), y: new Float64Array(input.t.length) };
  const at = (method: "linear" | "monotone"): Float64Array => resample(trace, { sampleRateHz, method }).segments[0]!.x;
  return [...zip(at("linear"), expected.linear), ...zip(at("monotone"), expected.pchip)];
}

function edges({ input, expected }: ReferenceCase): Pairs {
  return [125, 250, 1000].flatMap((fs): Pairs => {
    const { n, fromExactSpeed } = expected.sampled[fs];
    const { speed } = compose(input.components, fs, n);
    const peak = speed.indexOf(Math.max(...speed));
    const rise = riseBefore(speed, peak, 0, 0.05, 0.3);
    return [
      [rise.crossing / fs, fromExactSpeed.onset5],
      [rise.extrapolated / fs, fromExactSpeed.onsetExtrapolated5to30],
      [fallAfter(speed, peak, n, 0.05, 0.4).crossing / fs, fromExactSpeed.end5],
    ];
  });
}

function bouts({ input, params, expected }: ReferenceCase): Pairs {
  const { speed } = compose(input.components, params.sampleRateHz, input.n);
  const found = (gap: number): number[] =>
    findBouts(speed, 0, params.sampleRateHz, expected.enterLevel, expected.leaveLevel, gap).flatMap((bout) => [bout.from, bout.to]);
  return [...zip(found(0), expected.bouts.flat()), ...zip(found(params.mergeGap), expected.merged.flat())];
}

function peaks({ input, expected }: ReferenceCase): Pairs {
  return [125, 250, 1000].flatMap((fs) => {
    const { speed } = compose(input.components, fs, expected.sampled[fs].n);
    const { index, prominence } = findPeaks(speed);
    const least = 0.05 * Math.max(...speed);
    return zip(
      index.filter((at, k) => prominence[k]! >= least && speed[at]! >= least),
      expected.sampled[fs].peakIndices,
    );
  });
}
