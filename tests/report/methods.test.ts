import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { methods } from "../../src/report/methods.js";
import { reviewPractice } from "../../src/report/review-practice.js";
import { summarizeSession } from "../../src/report/summarize-session.js";
import type { SessionSummary } from "../../src/report/types.js";
import { practised, session } from "./practised.js";

const steady = practised(10, (i) => ({ seed: 500 + i }));
const review = reviewPractice(steady);

describe("methods against outside values", () => {
  // Source: the package's own manifest, read as npm reads it: the version that a paper names is the one that is installed
  it("names the version of the package", () => {
    const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    expect(methods(review)).toContain(`aimed-movement ${version} `);
  });
});

describe("methods properties", () => {
  it("names version, data and options of each result", () => {
    const one = summarizeSession(session(0), { level: 0.9 });
    expect(methods(one)).toContain("40 acquisitions, reported at 250 Hz in motion");
    expect(methods(one)).toContain("Intervals are at 90 %.");
    expect(methods(review)).toContain("10 sessions of one person from 2026-03-02 to 2026-03-20 with 400 acquisitions");
    expect(methods(review)).toContain("random steps started from seed 1");
    expect(methods(review.comparison!)).toContain("two periods of 5 sessions (200 acquisitions) and 5 sessions (200 acquisitions)");
    for (const result of [one, review, review.comparison!]) expect(methods(result)).toContain(`aimed-movement ${one.header.version}`);
  });
  it("is one paragraph", () => expect(methods(review)).not.toMatch(/\n/));
});

describe("methods bad input", () => {
  it("refuses anything else", () => {
    expect(() => methods({} as SessionSummary)).toThrow("methods: result must be a result of");
    expect(() => methods(null as unknown as SessionSummary)).toThrow("methods: result must be an object, got null");
  });
});
