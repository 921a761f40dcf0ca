// Source: data/practice-typing: 99 tests of one practised adult in 13 sessions over 9.4 days (public R package platowork, MIT). Its own slope has p = 0.20, its
// rank trend p = 0.11 (facts.json): a gain is not shown, and neither is that there is none.
import { describe, expect, it } from "vitest";
import { compare } from "../../src/learning/compare.js";
import { detectPlateau } from "../../src/learning/detect-plateau.js";
import { fitLearningCurve } from "../../src/learning/fit-learning-curve.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";

const path = sharedPath("data", "practice-typing", "series.csv");
const rows = path === undefined ? [] : readTable(path);
const numbers = [...new Set(rows.map(({ session }) => session))];
const tests = numbers.map((number) => rows.filter(({ session }) => session === number).map(({ wpm }) => Number(wpm)));
const day = numbers.map((number) => Number(rows.find(({ session }) => session === number)!.time_utc_min) / 1440);
const value = tests.map((list) => meanAndSd(list).mean);

describe.skipIf(path === undefined)(`plateau of the practised typist (skipped: ${SHARED_ABSENT})`, () => {
  it("is neither called a plateau nor a gain, after any session, at any worthwhile change or horizon", () => {
    for (let n = 1; n <= day.length; n++) {
      for (const worthwhile of [1, 2, 5, 10]) {
        for (const horizon of [7, 14, 28]) {
          const { verdict } = detectPlateau({ day: day.slice(0, n), value: value.slice(0, n) }, { better: "higher", worthwhile, horizon });
          expect(verdict).toBe("cannotTell");
        }
      }
    }
  });

  it("shows what the facts say: alike neighbours, and no trend beyond chance", () => {
    const { evidence, warnings, sessionsNeeded } = detectPlateau({ day, value }, { better: "higher" });
    expect(warnings).toEqual(["autocorrelated"]);
    expect(evidence.order.p).toBeGreaterThan(0.11);
    expect(evidence.trend.chances.gain).toBeLessThan(0.975);
    expect(sessionsNeeded).toBeGreaterThan(20);
  });

  it("gains nothing between its halves that would be shown", () => {
    expect(compare(tests.slice(0, 6), tests.slice(-6), { better: "higher" }).verdict).toBe("cannotTell");
  });

  it("has a curve whose gain is not told from none", () => {
    const { warnings } = fitLearningCurve({ practice: numbers.map(Number), value }, { unit: "words/min", direction: "rising" });
    expect(warnings).toContain("noGain");
  });
});
