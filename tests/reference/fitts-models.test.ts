// Source: shared reference table fitts/models.json, computed with NumPy 2.4.6 and SciPy 1.17.1 from formulas recalled from: MacKenzie and Buxton 1992
// (opening read), Accot and Zhai 2003 (rectangles), Kopper et al. 2010 (abstract read; angles), Meyer et al. 1988 (summary read; submovements),
// Accot and Zhai 1997 (steering; integral form read in a secondary source).
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { angularDifficulty } from "../../src/fitts/angular-difficulty.js";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";
import { steeringDifficulty } from "../../src/fitts/steering-difficulty.js";
import { type TargetWidthOptions, targetWidth } from "../../src/fitts/target-width.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

interface Block<Case> {
  readonly cases: readonly Case[];
  readonly tolerance_abs: number;
}
interface ModelTable {
  readonly rectangle2d: Block<
    { readonly A: number; readonly W: number; readonly H: number; readonly angle_deg: number } & Readonly<Record<string, number>>
  >;
  readonly angular: Block<{
    A_m: number;
    W_m: number;
    D_m: number;
    alpha_deg: number;
    omega_deg: number;
    ID_plain_angular: number;
    ID_DP_k3: number;
  }>;
  readonly optimisedSubmovement: Block<{ ratio: number; sqrt: number; n3: number; n1000_minus_n: number; ln: number }>;
  readonly steering: {
    readonly straight: readonly { A: number; W: number; ID: number }[];
    readonly cone: readonly { A: number; W1: number; W2: number; ID: number }[];
    readonly goalPassing: readonly { N: number; A: number; W: number; ID_N: number }[];
    readonly goalPassingLimit: number;
    readonly tolerance_abs: number;
  };
}

const path = sharedPath("reference", "fitts", "models.json");
const table: ModelTable | undefined = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));

/** Ten significant digits are stored: the stated tolerance, or half a unit of the tenth digit where that is more. */
function expectClose(got: number, expected: number, tolerance: number, what = ""): void {
  const stored = expected === 0 ? 0 : 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(expected))) - 9);
  expect(Math.abs(got - expected), `${what} ${got} for ${expected}`).toBeLessThanOrEqual(Math.max(tolerance, 1.01 * stored));
}

describe.skipIf(!table)(`models of difficulty against their table (skipped: ${SHARED_ABSENT})`, () => {
  it("has the cases", () => {
    const { rectangle2d, angular, optimisedSubmovement, steering } = table!;
    expect([rectangle2d.cases.length, angular.cases.length, optimisedSubmovement.cases.length]).toEqual([7, 3, 7]);
    expect([steering.straight.length, steering.cone.length, steering.goalPassing.length]).toEqual([2, 4, 6]);
  });

  it.each(table?.rectangle2d.cases ?? [])("rectangle of $W by $H at $angle_deg degrees", (c) => {
    const tolerance = table!.rectangle2d.tolerance_abs;
    const width = (options: TargetWidthOptions): number => targetWidth({ kind: "rect", width: c.W, height: c.H }, options);
    const approach = (c.angle_deg * Math.PI) / 180;
    expectClose(width({ approach }), c.W_prime!, tolerance, "W'");
    const rules: [string, TargetWidthOptions][] = [
      ["ID_status_quo", { rule: "width" }],
      ["ID_smaller_of", { rule: "smaller" }],
      ["ID_W_prime", { rule: "along", approach }],
      ["ID_W_plus_H", { rule: "sum" }],
      ["ID_W_times_H", { rule: "area" }],
      ["ID_euclid_eta1", { rule: "euclidean" }],
      ["ID_euclid_eta_1_7", { rule: "euclidean", heightWeight: 1 / 7 }],
    ];
    for (const [key, options] of rules) expectClose(indexOfDifficulty(c.A, width(options)), c[key]!, tolerance, key);
  });

  it.each(table?.angular.cases ?? [])("angles of A = $A_m m, W = $W_m m at $D_m m", (c) => {
    const { tolerance_abs: tolerance } = table!.angular;
    const { amplitude, width, plain, weighted } = angularDifficulty(c.A_m, c.W_m, c.D_m);
    expectClose(amplitude, c.alpha_deg, tolerance, "alpha");
    expectClose(width, c.omega_deg, tolerance, "omega");
    expectClose(plain, c.ID_plain_angular, tolerance, "plain");
    expectClose(weighted, c.ID_DP_k3, tolerance, "weighted");
  });

  it.each(table?.optimisedSubmovement.cases ?? [])("submovements at A/W = $ratio", (c) => {
    const { tolerance_abs: tolerance } = table!.optimisedSubmovement;
    const root = (submovements: number): number => indexOfDifficulty(c.ratio, 1, { form: "squareRoot", submovements });
    expectClose(indexOfDifficulty(c.ratio, 1, { form: "squareRoot" }), c.sqrt, tolerance, "two");
    expectClose(3 * root(3), c.n3, tolerance, "three");
    expectClose(1000 * root(1000) - 1000, c.n1000_minus_n, tolerance, "a thousand");
    // the limit of many is the logarithm: n r^(1/n) - n = ln r + (ln r)^2/(2n) + ...
    expectClose(1e7 * root(1e7) - 1e7, c.ln, 1e-6, "limit");
  });

  it.each(table?.steering.straight ?? [])("straight tunnel of $A by $W", ({ A, W, ID }) => {
    expectClose(steeringDifficulty(Float64Array.of(0, A), Float64Array.of(W, W)), ID, table!.steering.tolerance_abs);
  });

  it.each(table?.steering.cone ?? [])("cone of $A from $W1 to $W2", ({ A, W1, W2, ID }) => {
    expectClose(steeringDifficulty(Float64Array.of(0, A), Float64Array.of(W1, W2)), ID, table!.steering.tolerance_abs);
  });

  it.each(table?.steering.goalPassing ?? [])("$N goals of $W on a way of $A", ({ N, A, W, ID_N }) => {
    expectClose(N * indexOfDifficulty(A / N, W), ID_N, table!.steering.tolerance_abs);
  });

  it("tends with many goals to the tunnel's index over ln 2", () => {
    const limit = steeringDifficulty(Float64Array.of(0, 500), Float64Array.of(20, 20)) / Math.LN2;
    expectClose(limit, table!.steering.goalPassingLimit, table!.steering.tolerance_abs);
    // log2(x + 1) = (x - x^2/2)/ln 2 for small x: short of the limit by its share A/(2 N W)
    expect(1e6 * indexOfDifficulty(500 / 1e6, 20)).toBeCloseTo(limit * (1 - 25 / 2e6), 6);
  });
});
