import { describe, expect, it } from "vitest";
import { pathAccuracy } from "../../src/fitts/path-accuracy.js";
import type { Estimate } from "../../src/math/estimate.js";
import { countEntries } from "../../src/movement/path/count-entries.js";
import { countReversals } from "../../src/movement/path/count-reversals.js";
import { deviations } from "../../src/movement/path/deviations.js";
import { excessByPhase } from "../../src/movement/path/excess-by-phase.js";
import { pathLength } from "../../src/movement/path/path-length.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/path.json");
const all = (test: (c: ReferenceCase) => boolean): [string, ReferenceCase][] => (table?.cases ?? []).filter(test).map((c) => [c.name, c]);

function columns(points: readonly (readonly [number, number])[]): { x: Float64Array; y: Float64Array } {
  return { x: Float64Array.from(points, (p) => p[0]), y: Float64Array.from(points, (p) => p[1]) };
}

function given(estimate: Estimate): number {
  if (!estimate.ok) throw new Error(estimate.why);
  return estimate.value;
}

function lengthOf({ x, y }: { x: Float64Array; y: Float64Array }): number {
  return pathLength(x, y, 0, x.length);
}

describe.skipIf(table === undefined)(`kinematics/path.json (else: ${SHARED_ABSENT})`, () => {
  // Source: worked by hand, recomputed with NumPy. Positions are taken from the target, so that its centre lies in the origin.
  it.each(all((c) => c.input.points !== undefined && c.expected.efficiency !== undefined && c.expected.along !== undefined))(
    "%s",
    (_, { input, params, expected, tolerance }) => {
      const { x, y } = columns(input.points.map(([px, py]: [number, number]) => [px - input.target[0], py - input.target[1]]));
      const close = (got: number, want: number): void => expect(within(got, want, tolerance), `${got} against ${want}`).toBe(true);
      const straight = Math.hypot(input.target[0] - input.start[0], input.target[1] - input.start[1]);
      const axis = { ux: (input.target[0] - input.start[0]) / straight, uy: (input.target[1] - input.start[1]) / straight };
      const along = x.map((value, i) => value * axis.ux + y[i]! * axis.uy);
      const length = lengthOf({ x, y });
      close(length, expected.pathLength);
      close(straight / length, expected.efficiency);
      close(length - straight, expected.excessToCentre);
      const accuracy = pathAccuracy({ x, y }, { x: input.start[0] - input.target[0], y: input.start[1] - input.target[1] }, { x: 0, y: 0 });
      close(given(accuracy.movementError) / straight, expected.meanDeviationOverDistance);
      const across: number[] = expected.across;
      close(given(accuracy.movementOffset), across.reduce((sum, value) => sum + value, 0) / across.length);
      for (const [i, value] of along.entries()) close(value, expected.along[i]);
      close(deviations(x, y, axis).largestDeviation, expected.largestDeviation);
      expect(countReversals(along, 0, along.length, params.deadBand)).toBe(expected.reversals);
      const lies = (px: number, py: number): boolean => px * px + py * py <= (input.width / 2) ** 2;
      expect(countEntries(x, y, 0, x.length, lies, 0, false)).toBe(expected.entriesBySamples);
      if (expected.entriesBySegments !== undefined) expect(countEntries(x, y, 0, x.length, lies, 0, true)).toBe(expected.entriesBySegments);
    },
  );

  // Source: worked by hand.
  it.each(all((c) => c.name === "return to the start: no axis" || c.name === "no motion"))("%s: a length, no ratio", (_, c) => {
    expect(within(lengthOf(columns(c.input.points)), c.expected.pathLength, c.tolerance)).toBe(true);
  });

  // Source: worked by hand (24-7-25 and 6-8-10 triangles).
  it("splits the path beyond need by phase", () => {
    const { input, expected, tolerance } = table!.cases.find((c) => c.name === "path beyond need, split by phase")!;
    const { x, y } = columns(input.points.map(([px, py]: [number, number]) => [px - input.target[0], py - input.target[1]]));
    const last = x.length - 1;
    const length = lengthOf({ x, y });
    // the axis is that of x
    const [primary, correction] = excessByPhase(x, y, x, [0, input.primaryEndIndex, last]) as [number, number];
    expect(within(primary, expected.primaryExcess, tolerance)).toBe(true);
    expect(within(correction, expected.correctionExcess, tolerance)).toBe(true);
    expect(within(primary + correction, expected.excess, tolerance)).toBe(true);
    expect(within(length, expected.pathLength, tolerance)).toBe(true);
    expect(within(pathLength(x, y, input.primaryEndIndex, last + 1), expected.correctionPathLength, tolerance)).toBe(true);
    expect(within(expected.primaryErrorLength / expected.correctionPathLength, expected.correctionEfficiency, { rel: 1e-11, abs: 0 })).toBe(
      true,
    );
  });

  // Source: worked by hand: why path lengths of two sampling rates are never compared.
  it("grows with the sampling of a jittering line", () => {
    const { expected, tolerance } = table!.cases.find((c) => c.name.startsWith("path length grows"))!;
    const points = Array.from({ length: 101 }, (_, k) => [k, k % 2] as const);
    // the table keeps twelve digits, half a unit of the last of which is more than its tolerance
    expect(within(lengthOf(columns(points)), expected.pathLengthEverySample, { rel: 0, abs: 5e-10 })).toBe(true);
    expect(within(lengthOf(columns(points.filter((_, k) => k % 2 === 0))), expected.pathLengthEverySecondSample, tolerance)).toBe(true);
  });

  // Source: closed form of the chords of an arc.
  it.each(all((c) => c.name.startsWith("circular arc")))("%s", (_, { input, params, expected, tolerance }) => {
    const angle = (params.arcDeg * Math.PI) / 180;
    const points = Array.from({ length: input.n + 1 }, (_, k) => {
      const q = (angle * k) / input.n;
      return [params.radius * Math.sin(q), params.radius * (1 - Math.cos(q))] as const;
    });
    const [end] = points.slice(-1);
    const length = lengthOf(columns(points));
    expect(within(length, expected.pathLengthSampled, tolerance)).toBe(true);
    expect(within(Math.hypot(...end!) / length, expected.efficiencySampled, tolerance)).toBe(true);
  });

  // Source: closed form of the curve itself. 40,000 chords come within 1e-8 of it.
  it.each(all((c) => c.name.startsWith("circular arc")))("%s: the curve", (_, { params, expected }) => {
    const angle = (params.arcDeg * Math.PI) / 180;
    const chord = 2 * params.radius * Math.sin(angle / 2);
    // half the arc on each side of the middle, so that the chord lies along x
    const path = columns(
      Array.from({ length: 40001 }, (_, k) => {
        const q = angle * (k / 40000 - 0.5);
        return [params.radius * Math.sin(q), params.radius * (Math.cos(q) - Math.cos(angle / 2))] as const;
      }),
    );
    const length = lengthOf(path);
    const near = { rel: 1e-8, abs: 0 };
    expect(within(length, expected.pathLengthCurve, near)).toBe(true);
    expect(within(chord / length, expected.efficiencyCurve, near)).toBe(true);
    // beyond half a circle the curve hangs over its chord, and the table has no figure
    if (expected.largestDeviationCurveOverChord !== undefined) {
      const { largestDeviation } = deviations(path.x, path.y, { ux: 1, uy: 0 });
      expect(within(largestDeviation / chord, expected.largestDeviationCurveOverChord, near)).toBe(true);
    }
  });

  // Source: closed form (complete elliptic integral, scipy ellipe). 20,000 chords come within 1e-7 of the curve.
  it.each(all((c) => c.name.startsWith("one period of a sine")))("%s", (_, { params, expected }) => {
    const n = 20000;
    const points = Array.from(
      { length: n + 1 },
      (_, k) => [(params.period * k) / n, params.amplitude * Math.sin((2 * Math.PI * k) / n)] as const,
    );
    const path = columns(points);
    expect(within(lengthOf(path), expected.pathLength, { rel: 1e-7, abs: 0 })).toBe(true);
    expect(within(params.period / lengthOf(path), expected.efficiency, { rel: 1e-7, abs: 0 })).toBe(true);
    // the table's mean is over x; the samples are even in it, one more than there are steps
    const { movementError } = pathAccuracy(path, { x: 0, y: 0 }, { x: params.period, y: 0 });
    expect(within((given(movementError) * (n + 1)) / n, expected.meanAbsoluteDeviation, { rel: 1e-7, abs: 0 })).toBe(true);
    expect(within(deviations(path.x, path.y, { ux: 1, uy: 0 }).largestDeviation, expected.largestDeviation, { rel: 1e-7, abs: 0 })).toBe(
      true,
    );
  });
});
