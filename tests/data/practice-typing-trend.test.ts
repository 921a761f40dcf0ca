// Source: data/practice-typing/facts.json (nine digits), made by the NumPy and SciPy script beside it from the same series of typing tests
// of one practised adult.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { lagOne } from "../../src/learning/trend/lag-one.js";
import { linearRegression } from "../../src/math/linear-regression.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { uncertainMean, welch } from "../../src/math/welch.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";
import { expectKendall, expectLine, stored } from "./trend-facts.js";

const series = sharedPath("data", "practice-typing", "series.csv");
const path = sharedPath("data", "practice-typing", "facts.json");
const facts = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
const rows = series === undefined ? [] : readTable(series);
const columnOf = (name: string): Float64Array => Float64Array.from(rows, (row) => Number(row[name]));
const [test, session, wpm, accuracy] = ["test", "session", "wpm", "accuracy"].map(columnOf) as [
  Float64Array,
  Float64Array,
  Float64Array,
  Float64Array,
];
const sessions = Float64Array.from(new Set(session));
const means = sessions.map((number) => meanAndSd(wpm.filter((_, i) => session[i] === number)).mean);

describe.skipIf(facts === undefined)(`trends of the practised typist (skipped: ${SHARED_ABSENT})`, () => {
  it("is the series: 99 tests in 13 sessions, with the stored means", () => {
    expect([wpm.length, means.length]).toEqual([99, 13]);
    for (const [i, mean] of means.entries()) expect(stored(mean, facts.sessionMeansWpm[i])).toBe(true);
  });

  it("has the stored Mann-Kendall tests and Theil-Sen slopes of tests and of session means", () => {
    expectKendall(test, wpm, facts.kendallTests);
    expectKendall(sessions, means, facts.kendallSessionMeans);
  });

  it("has the stored lines", () => {
    expectLine(test, wpm, facts.olsWpmOnTest);
    expectLine(sessions, means, facts.olsSessionMeans);
    expectLine(test, accuracy, facts.olsAccuracyOnTest);
  });

  it("has the stored autocorrelation of session means", () => expect(stored(lagOne(means)!, facts.r1SessionMeans)).toBe(true));

  it("has the stored difference of halves, the middle session left out", () => {
    const [early, late] = [means.subarray(0, 6), means.subarray(-6)];
    const { difference, t, df, p } = welch(uncertainMean(early), uncertainMean(late), 0.95)!;
    const got = { meanEarly: meanAndSd(early).mean, meanLate: meanAndSd(late).mean, difference, t, df, p };
    for (const [name, value] of Object.entries(got)) expect(stored(value, facts.halves[name]), `${name}: ${value}`).toBe(true);
  });

  it("gives no proof of a gain: no slope of session means or tests differs from 0 at 5 %", () => {
    for (const p of [facts.olsSessionMeans.p, facts.kendallSessionMeans.p, facts.kendallTests.p]) expect(p).toBeGreaterThan(0.05);
    const fit = linearRegression([sessions], means)!;
    expect(Math.abs(fit.coefficients[1]! / fit.standardErrors[1]!)).toBeLessThan(2.2);
  });
});
