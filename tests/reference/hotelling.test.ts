// Source: shared reference table scatter/point-sets.json: one-sample tests of Hotelling, computed with NumPy and SciPy 1.10.1; the two data sets
// with three and five variables and their printed T2 and p come from a public repository (spm1d, data of Johnson and Wichern among them).
import { describe, expect, it } from "vitest";
import { biasTest } from "../../src/endpoints/bias-test.js";
import { hotelling, hotellingCritical } from "../../src/math/hotelling.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = readReference("scatter/point-sets.json")?.cases ?? [];
const published = cases.filter((c) => c.name.startsWith("Hotelling one-sample"));
const aboutOrigin = cases.filter((c) => c.expected.hotellingAboutOrigin !== undefined);

const columnsOf = (rows: number[][]): Float64Array[] => rows[0]!.map((_, k) => Float64Array.from(rows, (row) => row[k]!));

function expectSame(c: ReferenceCase, pairs: readonly (readonly [string, number, number])[]): void {
  for (const [what, got, expected] of pairs) {
    expect(within(got, expected, c.tolerance), `${c.name}: ${what} ${got} for ${expected}`).toBe(true);
  }
}

describe.skipIf(cases.length === 0)(`Hotelling's one-sample test against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds two published examples and four point sets", () => expect([published.length, aboutOrigin.length]).toEqual([2, 4]));

  it.each(published)("$name", (c) => {
    const { rows, mu } = c.input;
    const test = hotelling(columnsOf(rows), mu)!;
    const { T2, F, df, p, criticalT2_10, publishedT2, publishedP } = c.expected;
    expect(test.df).toEqual(df);
    expectSame(c, [
      ["T2", test.t2, T2],
      ["F", test.f, F],
      ["p", test.p, p],
    ]);
    if (criticalT2_10 !== undefined) expectSame(c, [["critical", hotellingCritical(0.9, df[0], rows.length), criticalT2_10]]);
    // to the digits printed
    expect(Math.abs(test.t2 - publishedT2)).toBeLessThan(publishedT2 < 10 ? 0.005 : 0.00005);
    expect(Math.abs(test.p - publishedP)).toBeLessThan(publishedP < 0.001 ? 5e-7 : 5e-6);
  });

  it.each(aboutOrigin)("about the origin: $name", (c) => {
    const [x, y] = columnsOf(c.input.points);
    const test = biasTest({ x: x!, y: y! });
    const { T2, F, df, p, criticalT2_05 } = c.expected.hotellingAboutOrigin;
    if (!test.ok) throw new Error(test.why);
    expect(test.df).toEqual(df);
    expectSame(c, [
      ["T2", test.t2, T2],
      ["F", test.f, F],
      ["p", test.p, p],
      ["critical", test.criticalT2, criticalT2_05],
      ["mean x", test.offset[0], c.expected.mean[0]],
      ["mean y", test.offset[1], c.expected.mean[1]],
    ]);
  });
});
