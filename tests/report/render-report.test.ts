import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { renderReport } from "../../src/report/render-report.js";
import { reviewPractice } from "../../src/report/review-practice.js";
import type { PracticeReview } from "../../src/report/types.js";
import { practised } from "./practised.js";

const steady = practised(10, (i) => ({ seed: 500 + i }));
const review = reviewPractice(steady);

describe("renderReport against outside values", () => {
  // Source: HTML Living Standard and WCAG 2.2, as a check of structure: one h1, every table with a caption, every head cell with a scope, a language, a title
  it("has the structure that readers of pages rely on", () => {
    const html = renderReport(review);
    expect(html.startsWith('<!doctype html>\n<html lang="en">')).toBe(true);
    expect(html.match(/<h1>/g)).toHaveLength(1);
    expect(html.match(/<table>/g)!.length).toBe(html.match(/<caption>/g)!.length);
    expect(html).not.toMatch(/<th(?! scope=)[ >]/);
    expect(html).toContain("<title>Pointing practice of Ada</title>");
  });
});

describe("renderReport properties", () => {
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
  test.prop([fc.string({ unit: "binary", maxLength: 20 })], { numRuns: 20 })("has the same tags whatever the name", (person) => {
    const tags = (html: string): string[] => [...html.matchAll(/<\/?([a-z0-9]+)/g)].map(([, tag]) => tag!);
    const named = { ...review, person };
    expect(tags(renderReport(named))).toEqual(tags(renderReport(review)));
  });
});

describe("renderReport bad input", () => {
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
