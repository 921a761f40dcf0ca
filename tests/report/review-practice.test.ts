import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { renderReport } from "../../src/report/render-report.js";
import { reviewPractice } from "../../src/report/review-practice.js";
import type { SessionSummary } from "../../src/report/types.js";
import { DESK, practised } from "./practised.js";

const steady = practised(10, (i) => ({ seed: 500 + i }));
const review = reviewPractice(steady);

describe("reviewPractice against outside values", () => {
  // Source: HSE (Great Britain), advice on breaks at display screens: short and often, 5 to 10 minutes every hour
  it("has a break in an hour of practice", () => {
    const rests = review.plan.items.filter(({ kind }) => kind === "rest");
    expect(rests.some(({ minutes }) => minutes >= 5 && minutes <= 10)).toBe(true);
  });
  // Source: common practice, no source: ten minutes for each of four parts and twenty for all together
  it("plans an hour as coaches do when nothing stands out", () => {
    const minutes = (kind: string): number =>
      review.plan.items.filter((item) => item.kind === kind).reduce((sum, item) => sum + item.minutes, 0);
    expect(review.diagnosis.verdict.kind).toBe("noWeakestPart");
    expect([minutes("part"), minutes("combined")]).toEqual([40, 20]);
  });
});

describe("reviewPractice properties", () => {
  it("says first what cannot be said, and always that pain does not show", () => {
    expect(review.answers.cannotSay.at(-1)).toContain("pain");
    expect(review.answers.whenToStop.some((line) => /numbness/.test(line))).toBe(true);
    expect(review.answers.whenToStop.some((line) => /clinician/.test(line))).toBe(true);
  });
  it("does not depend on the order in which sessions are given, and leaves them alone", () => {
    const copy = structuredClone(steady);
    expect(reviewPractice([...steady].reverse())).toEqual(review);
    expect(steady).toEqual(copy);
  });
  it("gives plain data", () => {
    expect(JSON.parse(JSON.stringify(review))).toEqual(review);
    expect(structuredClone(review)).toEqual(review);
  });
  it("rests on the present equipment, and tells both stretches", () => {
    const old = practised(6, (i) => ({ seed: 600 + i }), 0, { ...DESK, id: "old", refreshHz: 60, latency: 0.08 });
    const fresh = practised(8, (i) => ({ seed: 700 + i }), 20);
    const both = reviewPractice([...old, ...fresh]);
    expect(both.spells.map(({ sessions }) => sessions)).toEqual([6, 8]);
    expect(both.comparison!.equipment.verdict).toBe("same");
    expect(both.courses[0]!.value).toHaveLength(8);
    expect(both.answers.isItTheEquipment.join(" ")).toContain("The equipment changed");
    // too few sessions on the new equipment: the old ones are asked, and skill is not claimed from them
    const soon = reviewPractice([...old, ...fresh.slice(0, 2)]);
    expect(soon.comparison!.warnings).toContain("equipment");
    expect(soon.comparison!.measures.find(({ measure }) => measure === "latency")!.skill).not.toBe("better");
  });
  it("names what holds somebody back, and plans for it", () => {
    const slow = [...practised(4, (i) => ({ seed: 500 + i })), ...practised(4, (i) => ({ seed: 800 + i, latency: { mu: 0.32 } }), 20)];
    const found = reviewPractice(slow);
    expect(found.diagnosis.verdict).toEqual({ kind: "weakestPart", part: "nextTarget" });
    const minutes = (part: string): number =>
      found.plan.items.filter((item) => item.part === part).reduce((sum, item) => sum + item.minutes, 0);
    expect(minutes("nextTarget")).toBeGreaterThan(minutes("primary"));
    expect(found.answers.costsMost[0]).toContain("leaving for the next target");
  });
  test.prop([fc.integer({ min: 1, max: 10 }), fc.integer({ min: 10, max: 120 })], { numRuns: 8 })(
    "bears any number of sessions and minutes, and its report renders",
    (n, minutes) => {
      const short = reviewPractice(steady.slice(0, n), { minutes });
      expect(short.plan.minutes).toBeLessThanOrEqual(minutes);
      expect(short.comparison === undefined).toBe(n < 4);
      for (const form of ["html", "text"] as const) expect(renderReport(short, { form })).not.toMatch(/undefined|NaN|Infinity|\[object/);
    },
  );
});

describe("reviewPractice bad input", () => {
  it.each([
    [[], {}, "reviewPractice: sessions must hold at least 1 session, got 0"],
    [[steady[0]!, { ...steady[1]!, person: "Bo" }], {}, 'reviewPractice: sessions must be of one person, got "Ada" and, at [1], "Bo"'],
    [steady, { minutes: 5 }, "reviewPractice: options.minutes must be at least 10 and at most 240, got 5"],
    [steady, { wanted: 1 }, "reviewPractice: options.wanted must be at least 0.5 and at most 0.99, got 1"],
    [steady, { group: [[]] }, "reviewPractice: options.group[0] must hold at least 1 session, got 0"],
    [steady, { group: "all" }, 'reviewPractice: options.group must be an array with one list of sessions per person, got "all"'],
    [steady, { seed: 0.5 }, "reviewPractice: options.seed must be a whole number"],
  ])("refuses %#", (sessions, options, message) => {
    expect(() => reviewPractice(sessions as SessionSummary[], options as object)).toThrow(message);
  });
});
