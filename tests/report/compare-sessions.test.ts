import { fc, test } from "@fast-check/vitest";
import { mean } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { compareSessions } from "../../src/report/compare-sessions.js";
import type { SessionSummary } from "../../src/report/types.js";
import { DESK, practised } from "./practised.js";

/** One distance and one size: nothing to adjust for. */
const ONE_TASK = { targets: { amplitude: [400, 400], widths: [40] } } as const;
const before = practised(5, (i) => ({ seed: 100 + i, latency: { mu: 0.26 }, ...ONE_TASK }));
const after = practised(5, (i) => ({ seed: 200 + i, latency: { mu: 0.2 }, ...ONE_TASK }), 20);
const measure = (result: ReturnType<typeof compareSessions>, name: string) => result.measures.find((one) => one.measure === name)!;
const moved = ({ rows }: SessionSummary): number[] =>
  rows.filter(({ times }) => times.onset !== undefined).map(({ budget }) => budget.latency);

describe("compareSessions against outside values", () => {
  // Source: simple-statistics 7.12.1 mean, of the sessions' means: with one task there is nothing to adjust
  it("compares plain session means when all targets are alike", () => {
    const { comparison } = measure(compareSessions(before, after), "latency");
    const level = (sessions: readonly SessionSummary[]): number => mean(sessions.map((one) => mean(moved(one))));
    expect(comparison!.before.centre).toMatchObject({ ok: true, value: expect.closeTo(level(before), 3) });
    expect(comparison!.change).toMatchObject({ ok: true, value: expect.closeTo(level(after) - level(before), 3) });
  });
});

describe("compareSessions properties", () => {
  it("finds the part that was practised and leaves the others", () => {
    const result = compareSessions(before, after);
    expect(measure(result, "latency").skill).toBe("better");
    expect(measure(result, "primaryTime").skill).not.toBe("better");
    expect(result.warnings).toEqual([]);
    expect(result.equipment.verdict).toBe("same");
  });
  it("turns with the periods", () => {
    const [there, back] = [compareSessions(before, after), compareSessions(after, before)];
    const [a, b] = [measure(there, "latency").comparison!.change, measure(back, "latency").comparison!.change];
    expect(a.ok && b.ok && a.value + b.value).toBeCloseTo(0, 12);
    expect(measure(back, "latency").skill).toBe("worse");
  });
  it("does not call a harder mix of tasks a loss", () => {
    const easy = practised(5, (i) => ({ seed: 300 + i, targets: { widths: [64, 100] } }));
    const hard = practised(5, (i) => ({ seed: 400 + i, targets: { widths: [16, 24] } }), 20);
    const result = compareSessions(easy, hard);
    expect(result.warnings).toContain("otherTask");
    const plain = (sessions: readonly SessionSummary[]): number =>
      mean(sessions.map(({ rows }) => mean(rows.map(({ budget }) => budget.primary))));
    // unadjusted, the primary takes 20 % longer
    expect(plain(hard) / plain(easy)).toBeGreaterThan(1.2);
    const { change } = measure(result, "primaryTime").comparison!;
    expect(change.ok && Math.abs(change.value)).toBeLessThan(5);
  });
  it("gives no verdict on skill across equipment whose effect nobody knows", () => {
    const elsewhere = practised(5, (i) => ({ seed: 200 + i, latency: { mu: 0.2 }, ...ONE_TASK }), 20, { id: "another desk" });
    const result = compareSessions(before, elsewhere);
    expect(measure(result, "latency").comparison!.verdict).toBe("better");
    expect(result.measures.every(({ skill }) => skill === "cannotTell")).toBe(true);
    expect(result.warnings).toContain("equipment");
  });
  it("takes a faster display off before it speaks of skill", () => {
    const slow = { ...DESK, id: "old", latency: 0.08 };
    const withSlow = practised(5, (i) => ({ seed: 100 + i, latency: { mu: 0.26 }, ...ONE_TASK }), 0, slow);
    const result = compareSessions(withSlow, after);
    // 60 ms quicker, all of it the display's
    expect(measure(result, "latency").comparison!.verdict).toBe("better");
    expect(measure(result, "latency").equipmentEffect).toMatchObject({ ok: true, value: expect.closeTo(-0.06, 9) });
    expect(measure(result, "latency").skill).not.toBe("better");
  });
  it("does not mix equipment within a period", () => {
    const mixed = [...before.slice(0, 4), { ...before[4]!, equipment: { ...DESK, id: "other", latency: 0.05 } }];
    expect(compareSessions(mixed, after).measures.every(({ skill }) => skill === "cannotTell")).toBe(true);
  });
  it("gives plain data, whatever the order of the sessions, and leaves them alone", () => {
    const copy = structuredClone(before);
    const result = compareSessions([...before].reverse(), after);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(result).toEqual(compareSessions(before, after));
    expect(before).toEqual(copy);
  });
  test.prop([fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 })], { numRuns: 8 })("bears short periods", (k, l) => {
    const result = compareSessions(before.slice(0, k), after.slice(0, l));
    expect(result.warnings).toContain("fewSessions");
    if (Math.min(k, l) < 2) expect(result.measures.every(({ comparison }) => comparison === null)).toBe(true);
  });
});

describe("compareSessions bad input", () => {
  it.each([
    [[], after, "compareSessions: before must hold at least 1 session, got 0"],
    [before, undefined, "compareSessions: after must be an array of session summaries, got undefined"],
    [[{}], after, "compareSessions: before[0] must be a result of summarizeSession, got an object without rows and space"],
    [[{ ...before[0]!, startedAt: "soon" }], after, 'compareSessions: before[0].startedAt must be a date and time of ISO 8601, got "soon"'],
    [
      [{ ...before[0]!, space: { kind: "plane", unit: "mm" } }],
      after,
      /before and after must share one space, got plane in mm .* plane in px/,
    ],
  ])("refuses %#", (first, second, message) => {
    expect(() => compareSessions(first as SessionSummary[], second as SessionSummary[])).toThrow(message);
  });
  it("refuses a level out of range", () => {
    expect(() => compareSessions(before, after, { level: 0 })).toThrow("compareSessions: options.level must be above 0 and below 1, got 0");
  });
});
