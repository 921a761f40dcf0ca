import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type MovementPredictors, type ScatterDependence, scatterDependence } from "../../src/endpoints/scatter-dependence.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";
import { DRAWS } from "./scatter-draws.js";

type Given = Extract<ScatterDependence, { ok: true }>;

function given(endpoints: Endpoints, predictors: MovementPredictors, options = {}): Given {
  const result = scatterDependence(endpoints, predictors, options);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

const column = (n: number, f: (i: number) => number): Float64Array => Float64Array.from({ length: n }, (_, i) => f(i));

/** 36 movements in all directions and of eleven amplitudes. */
const PREDICTORS: MovementPredictors = {
  amplitude: column(36, (i) => 100 + 50 * ((i * 7) % 11)),
  direction: column(36, (i) => (2 * Math.PI * ((i * 5) % 36)) / 36 + 0.1),
};
const ENDPOINTS: Endpoints = {
  x: Float64Array.of(
    11.763,
    5.868,
    7.841,
    -4.585,
    -0.553,
    4.296,
    -2.642,
    8.25,
    10.016,
    4.617,
    1.872,
    6.174,
    -2.422,
    3.924,
    4.592,
    8.567,
    6.96,
    -2.787,
    0.827,
    3.816,
    1.961,
    4.946,
    12.394,
    1.325,
    3.914,
    -1.862,
    0.761,
    5.407,
    -0.141,
    8.945,
    11.962,
    0.141,
    4.582,
    5.169,
    2.922,
    7.014,
  ),
  y: Float64Array.of(
    0.546,
    3.834,
    -0.989,
    -1.432,
    4.133,
    1.838,
    -2.532,
    0.004,
    3.821,
    3.311,
    0.454,
    3.416,
    0.746,
    -1.398,
    -2.515,
    1.593,
    1.837,
    1.118,
    1.086,
    0.9,
    0.982,
    0.581,
    0.727,
    3.005,
    -2.956,
    -2.563,
    2.477,
    1.512,
    1.447,
    3.36,
    0.787,
    2.596,
    1.015,
    4.953,
    0.237,
    1.558,
  ),
};

/** Movements of amplitudes 200-800 in all directions; the SD grows by `growth` of its middle value per unit of amplitude. */
function drawMovements(
  random: ReturnType<typeof createRandom>,
  n: number,
  draw: (random: ReturnType<typeof createRandom>) => number,
  growth = 0,
): [Endpoints, MovementPredictors] {
  const amplitude = column(n, () => random.uniform(200, 800));
  const direction = column(n, () => random.uniform(0, 2 * Math.PI));
  const sd = amplitude.map((a) => 25 * (1 + growth * (a - 500)));
  const x = amplitude.map((a, i) => 3 - 0.03 * (a - 500) + sd[i]! * draw(random));
  return [
    { x, y: sd.map((s) => s * draw(random)) },
    { amplitude, direction },
  ];
}

describe("scatterDependence against outside values", () => {
  const result = given(ENDPOINTS, PREDICTORS, { unit: "mm" });
  const along = result.bias.along!;
  const spread = result.spread.along!;

  // Source: statsmodels 0.15.0 OLS on amplitude, cosines and sines: params, bse, conf_int, f_test; computed. Growth: NumPy, from cov_params.
  it("gives the slope of the bias as statsmodels does", () => {
    expect(result.meanAmplitude).toBeCloseTo(343.05555555555554, 11);
    expect(along.typical).toMatchObject({
      value: expect.closeTo(4.050944444444445, 11),
      unit: "mm",
      interval: [expect.closeTo(3.47787085, 8), expect.closeTo(4.62401804, 8)],
    });
    expect(along.amplitude).toEqual({
      slope: {
        ok: true,
        value: expect.closeTo(-0.01749214153232912, 12),
        unit: "1",
        n: 36,
        interval: [expect.closeTo(-0.02141836, 8), expect.closeTo(-0.01356593, 8)],
        level: 0.95,
      },
      standardError: expect.closeTo(0.0019224741570049715, 13),
      p: expect.closeTo(3.9356531426852856e-10, 18),
    });
    expect(result.bias.across!.amplitude!.p).toBeCloseTo(0.6656358956432261, 10);
  });
  it("gives the harmonics of direction as statsmodels does", () => {
    expect(along.direction!.first).toMatchObject({
      amplitude: expect.closeTo(3.5626557350526387, 11),
      phase: expect.closeTo(0.4754344985075975, 11),
      f: expect.closeTo(40.17799439755004, 9),
      df: [2, 30],
      p: expect.closeTo(3.2725042900871773e-9, 17),
    });
    expect(along.direction!.second).toMatchObject({
      amplitude: expect.closeTo(0.8604115806358122, 11),
      phase: expect.closeTo(0.5351384740921493, 11),
      p: expect.closeTo(0.14114251427059019, 10),
    });
    expect(along.direction).toMatchObject({
      f: expect.closeTo(20.981363191698996, 9),
      df: [4, 30],
      p: expect.closeTo(2.4462237092029657e-8, 16),
    });
    expect(result.bias.across!.direction!.second!.p).toBeCloseTo(0.006054138714202443, 11);
  });
  // Source: the same, on |residual/sqrt(1 - leverage) - median|, leverages by OLS get_influence
  it("gives the dependence of the spread as statsmodels does", () => {
    expect(spread.typical).toMatchObject({ value: expect.closeTo(1.3797800792745998, 10) });
    expect(spread.amplitude).toMatchObject({
      slope: { value: expect.closeTo(0.003039528123632995, 12), unit: "1" },
      standardError: expect.closeTo(0.001075616224055089, 12),
      p: expect.closeTo(0.008309791765192523, 10),
      growth: {
        value: expect.closeTo(0.0022029076729611755, 11),
        unit: "1/mm",
        interval: [expect.closeTo(0.0005305658841035547, 11), expect.closeTo(0.0038752494618187966, 11)],
      },
    });
    expect(spread.direction).toMatchObject({
      f: expect.closeTo(1.0346257897432884, 9),
      p: expect.closeTo(0.4056530501471991, 10),
      second: { phase: expect.closeTo(-1.558333973646889, 9) },
    });
    expect(result.spread.across!.direction!.first.p).toBeCloseTo(0.7384192981625747, 10);
  });
  // Source: the meaning of a level, simulated; bars: the figures of the page less the binomial 99 % band of 500 runs
  it.each([
    ["normal", 50, 0.95, 0.06],
    ["skewed", 50, 0.95, 0.09],
    ["heavyTailed", 50, 0.95, 0.08],
    ["normal", 10, 0.95, 0.06],
  ] as const)("keeps its promises for %s scatter of %d movements that follows amplitude in its mean only", (kind, n, bar, alarm) => {
    const random = createRandom(13);
    const inside = (estimate: Estimate, truth: number) =>
      estimate.ok && estimate.interval![0] <= truth && truth <= estimate.interval![1] ? 1 : 0;
    let slope = 0;
    let growth = 0;
    let alarms = 0;
    for (let run = 0; run < 500; run++) {
      const { bias, spread } = given(...drawMovements(random, n, DRAWS[kind]));
      slope += inside(bias.along!.amplitude!.slope, -0.03);
      growth += inside(spread.along!.amplitude!.growth, 0);
      if (spread.along!.direction && spread.along!.direction.p < 0.05) alarms++;
    }
    expect(slope / 500).toBeGreaterThan(bar - band(bar, 500));
    expect(growth / 500).toBeGreaterThan(0.94 - band(0.94, 500));
    expect(alarms / 500).toBeLessThan(alarm + band(alarm, 500));
  });
  // Source: closed form. A spread in proportion to the amplitude grows by 1/mean amplitude of itself per unit.
  it("finds a spread in proportion to the amplitude", () => {
    const { spread, meanAmplitude } = given(...drawMovements(createRandom(2), 4000, DRAWS.normal, 1 / 500));
    expect(spread.along!.amplitude!.growth).toMatchObject({ ok: true, value: expect.closeTo(1 / meanAmplitude, 3.7) });
    // sqrt(2/pi) of the SD 25
    expect(spread.across!.typical).toMatchObject({ value: expect.closeTo(25 * Math.sqrt(2 / Math.PI), 0) });
  });
});

describe("scatterDependence properties", () => {
  const close = (a: number, b: number, scale = 1e-3) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-6 * (Math.abs(b) + scale));
  const whole = (max: number) => fc.integer({ min: -8 * max, max: 8 * max }).map((k) => k / 8);
  const movement = fc.record({
    along: whole(60),
    across: whole(40),
    amplitude: fc.integer({ min: 40, max: 900 }),
    direction: fc.integer({ min: 0, max: 359 }),
  });
  const movements = (minLength: number): fc.Arbitrary<[Endpoints, MovementPredictors]> =>
    fc.array(movement, { minLength, maxLength: 60 }).map((list) => [
      { x: Float64Array.from(list, (m) => m.along), y: Float64Array.from(list, (m) => m.across) },
      { amplitude: Float64Array.from(list, (m) => m.amplitude), direction: Float64Array.from(list, (m) => (m.direction * Math.PI) / 180) },
    ]);
  /** Difference of two phases on a circle of this length. */
  const apart = (a: number, b: number, circle: number) => Math.abs(((((a - b) % circle) + 1.5 * circle) % circle) - circle / 2);

  test.prop([movements(30), fc.integer({ min: -720, max: 720 })])(
    "turns its phases with the directions and changes nothing else",
    ([endpoints, predictors], degrees) => {
      const by = (degrees * Math.PI) / 180;
      const one = scatterDependence(endpoints, predictors);
      const other = scatterDependence(endpoints, { ...predictors, direction: predictors.direction.map((d) => d + by) });
      expect(other.ok).toBe(one.ok);
      if (!one.ok || !other.ok) return;
      expect(other.warnings).toEqual(one.warnings);
      for (const [a, b] of [
        [one.bias.along, other.bias.along],
        [one.bias.across, other.bias.across],
        [one.spread.along, other.spread.along],
      ] as const) {
        if (!a || !b) continue;
        if (a.typical.ok && b.typical.ok) close(b.typical.value, a.typical.value);
        close(b.amplitude?.p ?? 0, a.amplitude?.p ?? 0);
        close(b.direction?.p ?? 0, a.direction?.p ?? 0);
        close(b.direction?.first.p ?? 0, a.direction?.first.p ?? 0);
        close(b.direction?.second?.amplitude ?? 0, a.direction?.second?.amplitude ?? 0);
        if (a.direction && b.direction && a.direction.first.amplitude > 0.01) {
          expect(apart(b.direction.first.phase!, a.direction.first.phase! + by, 2 * Math.PI)).toBeLessThan(1e-5);
        }
        if (a.direction?.second && b.direction?.second && a.direction.second.amplitude > 0.01) {
          expect(apart(b.direction.second.phase!, a.direction.second.phase! + by, Math.PI)).toBeLessThan(1e-5);
        }
      }
    },
  );
  test.prop([movements(10), whole(100)])("moves with the endpoints: only the typical bias changes", ([endpoints, predictors], by) => {
    const one = scatterDependence(endpoints, predictors);
    const other = scatterDependence({ x: endpoints.x.map((v) => v + by), y: endpoints.y }, predictors);
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok || !one.bias.along || !other.bias.along) return;
    close(other.bias.along.amplitude?.p ?? 0, one.bias.along.amplitude?.p ?? 0);
    if (one.bias.along.typical.ok && other.bias.along.typical.ok)
      close(other.bias.along.typical.value, one.bias.along.typical.value + by, 1);
    expect(other.bias.across).toEqual(one.bias.across);
  });
  test.prop([movements(10)])("scales with the unit: slopes and p-values keep", ([endpoints, predictors]) => {
    const one = scatterDependence(endpoints, predictors);
    const other = scatterDependence(
      { x: endpoints.x.map((v) => 4 * v), y: endpoints.y.map((v) => 4 * v) },
      { ...predictors, amplitude: predictors.amplitude.map((v) => 4 * v) },
    );
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok || !one.spread.along?.amplitude || !other.spread.along?.amplitude) return;
    close(other.spread.along.amplitude.p, one.spread.along.amplitude.p);
    const growth = [one.spread.along.amplitude.growth, other.spread.along.amplitude.growth] as const;
    if (growth[0].ok && growth[1].ok) close(4 * growth[1].value, growth[0].value);
  });
  test.prop([movements(0)])("leaves its input alone and gives plain data", ([endpoints, predictors]) => {
    const copy = structuredClone([endpoints, predictors]);
    const result = scatterDependence(endpoints, predictors, { unit: "mm" });
    expect([endpoints, predictors]).toEqual(copy);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
  });

  const random = createRandom(6);
  const [endpoints, predictors] = drawMovements(random, 60, DRAWS.normal);
  const directions = (list: readonly number[]) => ({
    ...predictors,
    direction: predictors.direction.map((_, i) => list[(i * 7) % list.length]!),
  });
  const right = Math.PI / 2;

  it("uses what directions there are, and says what it leaves out", () => {
    const eight = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => (k * right) / 2);
    expect(given(endpoints, directions(eight)).warnings).toEqual([]);
    const four = given(endpoints, directions([0, right, 2 * right, 3 * right]));
    expect(four).toMatchObject({ warnings: ["noSecondHarmonic"], bias: { along: { direction: { second: null, df: [2, 56] } } } });
    const two = given(endpoints, directions([0, 2 * right]));
    expect(two).toMatchObject({ warnings: ["noDirections"], bias: { along: { direction: null } } });
  });
  it("leaves the amplitude out where all are alike", () => {
    const one = given(endpoints, { ...predictors, amplitude: predictors.amplitude.map(() => 300) });
    expect(one).toMatchObject({
      warnings: ["oneAmplitude"],
      meanAmplitude: 300,
      bias: { along: { amplitude: null } },
      spread: { across: { amplitude: null } },
    });
    expect(scatterDependence(endpoints, { amplitude: new Float64Array(60).fill(300), direction: new Float64Array(60) })).toEqual({
      ok: false,
      why: "notIdentified",
      unit: "px",
      n: 60,
    });
  });
  it("gives one axis where the other has no errors, and nothing without any", () => {
    const flat = given({ x: endpoints.x, y: new Float64Array(60) }, predictors);
    expect(flat).toMatchObject({ bias: { across: null }, spread: { across: null } });
    expect(flat.bias.along).toEqual(given(endpoints, predictors).bias.along);
    expect(scatterDependence({ x: new Float64Array(60), y: new Float64Array(60) }, predictors)).toMatchObject({
      ok: false,
      why: "noSpread",
    });
  });
  it("judges amplitude alone below 30 movements, and nothing below ten", () => {
    const first = (n: number) =>
      given(
        { x: endpoints.x.slice(0, n), y: endpoints.y.slice(0, n) },
        { amplitude: predictors.amplitude.slice(0, n), direction: predictors.direction.slice(0, n) },
      );
    expect(first(30).warnings).toEqual(["few"]);
    expect(first(29)).toMatchObject({ warnings: ["few", "noDirections"], bias: { along: { direction: null } } });
    expect(
      scatterDependence(
        { x: new Float64Array(9), y: new Float64Array(9) },
        { amplitude: new Float64Array(9).fill(1), direction: new Float64Array(9) },
      ),
    ).toEqual({ ok: false, why: "tooFew", unit: "px", n: 9 });
  });
  it("tells an effect of direction from one of amplitude where long movements go one way", () => {
    // three in four long movements go right; the error depends on the direction only
    const n = 400;
    const amplitude = column(n, (i) => (i % 2 === 0 ? 600 : 200));
    const direction = column(n, (i) => ((i % 2 === 0) === i % 8 < 6 ? 0 : Math.PI) + (random.uniform() - 0.5) * 2);
    const x = direction.map((d) => 10 * Math.cos(d) + random.normal(0, 5));
    const { bias } = given({ x, y: x.map(() => random.normal()) }, { amplitude, direction });
    expect(bias.along!.amplitude!.p).toBeGreaterThan(0.01);
    expect(bias.along!.direction!.first).toMatchObject({ amplitude: expect.closeTo(10, -0.5), phase: expect.closeTo(0, 0.7) });
  });
});

describe("scatterDependence bad input", () => {
  it("names the bad column and the bad option", () => {
    const bad = (predictors: unknown) => () => scatterDependence(ENDPOINTS, predictors as MovementPredictors);
    expect(bad(undefined)).toThrow(/scatterDependence: predictors must be columns amplitude and direction, got undefined/);
    expect(bad({ ...PREDICTORS, amplitude: new Float64Array(3) })).toThrow(/predictors\.amplitude must have 36 entries/);
    expect(bad({ ...PREDICTORS, amplitude: new Float64Array(36) })).toThrow(/predictors\.amplitude\[0\] must be above 0, got 0/);
    expect(bad({ ...PREDICTORS, direction: new Float64Array(36).fill(Number.NaN) })).toThrow(
      /predictors\.direction\[0\] must be finite, got NaN/,
    );
    expect(() => scatterDependence(ENDPOINTS, PREDICTORS, { level: 0 })).toThrow(/options\.level must be above 0 and below 1, got 0/);
  });
});
