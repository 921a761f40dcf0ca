import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { compareEquipment } from "../../src/equipment/compare-equipment.js";
import { latencyBudget } from "../../src/equipment/latency-budget.js";
import type { EquipmentComparison } from "../../src/equipment/types.js";
import type { Estimate } from "../../src/math/estimate.js";
import type { Equipment } from "../../src/trace/types.js";

const DESK: Equipment = { id: "desk", refreshHz: 144, latency: 0.03, reportHz: 1000, countsPerInch: 800, mmPerPx: 0.27 };

const given = (estimate: Estimate | undefined): number => (estimate?.ok ? estimate.value : Number.NaN);
const ends = (estimate: Estimate | undefined): readonly [number, number] => (estimate?.ok && estimate.interval) || [Number.NaN, Number.NaN];
const effect = ({ effects }: EquipmentComparison, name: string): Estimate | undefined =>
  effects.find(({ measure }) => measure === name)?.change;

describe("compareEquipment against outside values", () => {
  // Source: SciPy 1.10.1 stats.norm.ppf(0.975) sqrt(2 0.002^2) = 5.5436 ms for two values measured with a standard error of 2 ms each
  it("takes the difference of two measured delays", () => {
    const result = compareEquipment(DESK, { ...DESK, id: "other", latency: 0.05, refreshHz: 60 });
    expect(result).toMatchObject({ verdict: "differs", differing: ["refreshHz", "latency"] });
    expect(given(result.delay)).toBeCloseTo(0.02, 12);
    expect(ends(result.delay)[1] - 0.02).toBeCloseTo(0.011087230594797423 / 2, 9);
  });

  // Source: by hand: 0.5 to 2 frames, evenly spread, 1.25 (1/144 - 1/60) = -12.153 ms with a standard deviation of 1.5 (1/60 - 1/144)/sqrt(12) = 4.210 ms
  it("takes it from the refresh rates where no delay was measured", () => {
    const { delay } = compareEquipment({ id: "desk", refreshHz: 60 }, { id: "desk", refreshHz: 144 });
    expect(given(delay)).toBeCloseTo(-0.012152777777777778, 12);
    expect((ends(delay)[1] - ends(delay)[0]) / (2 * 1.959963984540054)).toBeCloseTo(0.004209845712841022, 9);
    // another name leaves 5 ms of doubt more
    const other = compareEquipment({ id: "desk", refreshHz: 60 }, { id: "other", refreshHz: 144 }).delay;
    expect((ends(other)[1] - ends(other)[0]) / (2 * 1.959963984540054)).toBeCloseTo(Math.hypot(0.005, 0.004209845712841022), 9);
  });

  // Source: NumPy 1.24.2: sqrt(0.025^2 + (2/1000^2 + 1/f^2)/12) at 144 less that at 60 Hz where every press waits to see the stop
  it("tells what frames do to the spread of the press", () => {
    const change = effect(compareEquipment({ ...DESK, refreshHz: 60 }, DESK), "pressTimingSd");
    expect(ends(change)).toEqual([expect.closeTo(-0.0003784577472142128, 10), 0]);
  });

  // Source: by hand: 0.27 over 0.3 mm a pixel; 600 over 500 mm of distance; a hand that moves 800 0.05 over 400 0.05 counts a turn
  it("tells what lengths and turns become", () => {
    const view = { id: "desk", viewDistanceMm: 600, degPerCount: 0.05, countsPerInch: 800, mmPerPx: 0.27 };
    const result = compareEquipment(view, { ...view, viewDistanceMm: 500, countsPerInch: 400, mmPerPx: 0.3 });
    expect(given(effect(result, "lengthPx"))).toBeCloseTo(-10, 10);
    expect(given(effect(result, "visualAngle"))).toBeCloseTo(20, 10);
    expect(given(effect(result, "handDistance"))).toBeCloseTo(100, 10);
    expect(result.effects.map(({ measure }) => measure)).toEqual(["lengthPx", "visualAngle", "handDistance"]);
  });
});

const positive = fc.double({ min: 0.01, max: 5000, noNaN: true });
const record: fc.Arbitrary<Equipment> = fc.record(
  {
    id: fc.constantFrom("a", "b"),
    refreshHz: fc.constantFrom(60, 144, 240),
    frameCapHz: fc.constantFrom(57, 141),
    latency: fc.constantFrom(0, 0.03, 0.08),
    reportHz: fc.constantFrom(125, 1000),
    countsPerInch: positive,
    mmPerPx: positive,
    viewDistanceMm: positive,
    degPerCount: positive,
    fieldOfViewDeg: fc.constantFrom(90, 103),
  },
  { requiredKeys: ["id"] },
);

describe("compareEquipment properties", () => {
  test.prop([record, record])("turns its signs when the records change places, and is plain data", (one, other) => {
    const [there, back] = [compareEquipment(one, other), compareEquipment(other, one)];
    expect(JSON.parse(JSON.stringify(there))).toEqual(there);
    expect([back.verdict, back.differing, back.unknown]).toEqual([there.verdict, there.differing, there.unknown]);
    expect(back.delay.ok).toBe(there.delay.ok);
    if (there.delay.ok) expect(given(back.delay)).toBeCloseTo(-there.delay.value, 12);
    for (const { measure, change } of there.effects) {
      expect(change.ok).toBe(effect(back, measure)!.ok);
      if (change.ok && change.unit !== "%") expect(given(effect(back, measure))).toBeCloseTo(-change.value, 12);
      if (change.ok && change.interval) expect(change.interval[0] <= change.value && change.value <= change.interval[1]).toBe(true);
    }
  });

  test.prop([record])("is the same as itself, with no effect", (one) => {
    const same = compareEquipment(one, { ...one });
    expect(same).toMatchObject({ verdict: "same", differing: [], delay: { ok: true, value: 0, interval: [0, 0] } });
    for (const { change } of same.effects) expect(given(change)).toBe(0);
  });

  test.prop([fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true })])(
    "adds it to the response in the share that waits for a target alone, and to the whole likewise",
    (responses, loops) => {
      const later = { ...DESK, latency: 0.05 };
      const [all, some] = [compareEquipment(DESK, later, { loops }), compareEquipment(DESK, later, { loops, responses })];
      for (const side of [0, 1] as const) {
        expect(ends(effect(some, "latency"))[side]).toBeCloseTo(responses * ends(effect(all, "latency"))[side], 12);
        const spared = (1 - responses) * ends(effect(all, "latency"))[side];
        expect(ends(effect(some, "acquisitionTime"))[side]).toBeCloseTo(ends(effect(all, "acquisitionTime"))[side] - spared, 12);
      }
      expect(effect(some, "correctionTime")).toEqual(effect(all, "correctionTime"));
    },
  );
  test.prop([fc.double({ min: 0, max: 5, noNaN: true })])("adds the delay once to the response and once to every correction", (loops) => {
    const result = compareEquipment(DESK, { ...DESK, latency: 0.05 }, { loops });
    const once = given(result.delay);
    expect(given(effect(result, "latency"))).toBe(once);
    expect(given(effect(result, "pursuitLag"))).toBe(once);
    expect(given(effect(result, "correctionTime"))).toBeCloseTo(loops * once, 12);
    expect(given(effect(result, "acquisitionTime"))).toBeCloseTo((1.5 + loops) * once, 12);
    expect([given(effect(result, "primaryTime")), given(effect(result, "primaryError"))]).toEqual([0, 0]);
    expect(ends(effect(result, "verificationTime"))[0]).toBeLessThanOrEqual(0);
  });

  it("goes by the name where nothing else is said", () => {
    expect(compareEquipment({ id: "desk" }, { id: "desk" })).toMatchObject({ verdict: "same", unknown: ["refreshHz", "latency"] });
    const unknown = compareEquipment({ id: "desk" }, { id: "other" });
    expect(unknown).toMatchObject({ verdict: "unknown", differing: [], delay: { ok: false, why: "mixedEquipment" }, effects: [] });
    expect(unknown.reason).toMatch(/desk, then other/);
    expect(compareEquipment({ id: "desk", refreshHz: 60 }, { id: "other", refreshHz: 60 }).verdict).toBe("unknown");
  });

  it("lists what only one record says, and does not take it for a difference", () => {
    expect(compareEquipment({ id: "desk", latency: 0.03 }, { id: "desk", refreshHz: 60 })).toMatchObject({
      verdict: "same",
      unknown: ["refreshHz", "latency"],
    });
  });

  it("knows a change of the report rate alone, on a display of unknown rate", () => {
    const { delay } = compareEquipment({ id: "desk", reportHz: 125 }, { id: "desk", reportHz: 1000 });
    expect(given(delay)).toBeCloseTo(-0.0035, 12);
  });

  it("leaves times open where the hand has to do something else", () => {
    const result = compareEquipment(DESK, { ...DESK, latency: 0.05, countsPerInch: 400 });
    expect(result.verdict).toBe("differs");
    expect(result.delay.ok).toBe(true);
    expect(result.effects.map(({ measure }) => measure)).toEqual([]);
  });

  it("agrees with the budget on who pays", () => {
    const paid = latencyBudget({}, { loops: 1 }).pays.map(({ measure }) => measure);
    const told = compareEquipment(DESK, { ...DESK, latency: 0.05 }).effects.map(({ measure }) => measure);
    expect(told).toEqual([...paid, "pressTimingSd"]);
  });
});

describe("compareEquipment bad input", () => {
  it("names the bad value", () => {
    expect(() => compareEquipment({ id: "a", refreshHz: 0 }, DESK)).toThrow(
      /compareEquipment: before\.refreshHz must be finite and above 0, got 0/,
    );
    expect(() => compareEquipment(DESK, { id: "a", latency: -1 })).toThrow(/after\.latency must be finite and at least 0, got -1/);
    expect(() => compareEquipment({} as never, DESK)).toThrow(/before\.id must be a text, got undefined/);
    expect(() => compareEquipment(null as never, DESK)).toThrow(/before must be an object, got null/);
    expect(() => compareEquipment(DESK, DESK, { responses: 1.1 })).toThrow(
      "compareEquipment: options.responses must be at least 0 and at most 1, got 1.1",
    );
    expect(() => compareEquipment(DESK, DESK, { loops: -1 })).toThrow(/options\.loops must be finite and at least 0, got -1/);
    expect(() => compareEquipment(DESK, DESK, { timingSd: 0 })).toThrow(/options\.timingSd must be finite and above 0, got 0/);
    expect(() => compareEquipment(DESK, DESK, { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
  });
});
