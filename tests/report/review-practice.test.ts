import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { methods } from "../../src/report/methods.js";
import { renderReport } from "../../src/report/render-report.js";
import { reviewCharts } from "../../src/report/review-charts.js";
import { reviewPractice } from "../../src/report/review-practice.js";
import { summarizeSession } from "../../src/report/summarize-session.js";
import type { PracticeReview, SessionSummary } from "../../src/report/types.js";
import { DESK, practised, session } from "./practised.js";

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
    expect(found.answers.costsMost[0]).toContain("setting off for the next target");
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
  it("has charts for what there is", () => {
    expect(reviewCharts(review, steady).map(({ id }) => id)).toEqual([
      "endpoints",
      "time-budget",
      "course-acquisitionTime",
      "course-hitShare",
      "part-excess",
      "period-changes",
      "day-plan",
    ]);
  });
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

describe("renderReport", () => {
  const first = (html: string): string => /<p class="lead">(.*?)<\/p>/.exec(html)![1]!;
  it("says dates, numbers, equipment and what cannot be said in its first line", () => {
    const line = first(renderReport(review));
    expect(line).toMatch(
      /^10 sessions from 2026-03-02 to 2026-03-20, 400 acquisitions; equipment: desk \(display 240 Hz, delay 20 ms\)\. What these/,
    );
  });
  it("answers in the order of a person's questions", () => {
    const headings = [...renderReport(review).matchAll(/<h2[^>]*>(.*?)<\/h2>/g)].map(([, heading]) => heading);
    expect(headings.slice(0, 5)).toEqual(["What costs most", "Is it real?", "Is it the equipment?", "What next", "When to stop"]);
  });
  it("lets no name out of its place", () => {
    const person = `<script>alert(1)</script>`;
    const hostile = reviewPractice(
      steady.map((one) => ({ ...one, person, equipment: { ...one.equipment, id: `"><img src=x onerror=alert(1)>` } })),
    );
    const html = renderReport(hostile);
    expect(html).not.toContain("<script");
    expect(html).not.toContain("<img src=x");
    expect(html).toContain("&lt;script&gt;");
  });
  it("refuses what is no review, and pictures that are none", () => {
    expect(() => renderReport({} as PracticeReview)).toThrow("renderReport: review must be a result of reviewPractice, got an array of 0");
    expect(() => renderReport(review, { form: "pdf" as "html" })).toThrow(
      'renderReport: options.form must be one of "html", "text", got "pdf"',
    );
    expect(() => renderReport(review, { pictures: [{ title: "T", description: "D" } as never] })).toThrow(
      "renderReport: options.pictures[0].svg must be a text, got undefined",
    );
  });
});

describe("methods", () => {
  it("names version, data and options of each result", () => {
    const one = summarizeSession(session(0), { level: 0.9 });
    expect(methods(one)).toContain("40 acquisitions, reported at 250 Hz in motion");
    expect(methods(one)).toContain("Intervals are at 90 %.");
    expect(methods(review)).toContain("10 sessions of one person from 2026-03-02 to 2026-03-20 with 400 acquisitions");
    expect(methods(review)).toContain("random steps started from seed 1");
    expect(methods(review.comparison!)).toContain("two periods of 5 sessions (200 acquisitions) and 5 sessions (200 acquisitions)");
    for (const result of [one, review, review.comparison!]) expect(methods(result)).toContain(`aimed-movement ${one.header.version}`);
  });
  it("refuses anything else", () => {
    expect(() => methods({} as SessionSummary)).toThrow("methods: result must be a result of");
    expect(() => methods(null as unknown as SessionSummary)).toThrow("methods: result must be an object, got null");
  });
});
