import { describe, expect, it } from "vitest";
import { pointingTrials } from "../../src/movement/pointing-trials.js";
import type { Acquisition } from "../../src/movement/types.js";
import { errorOf, rowOf } from "./rows.js";

const parts = { latency: 0.25, primary: 0.5, verification: 0.125 };
const press = { errors: { press: errorOf(3, 1) } };
const whole = rowOf(8, parts, { ...press, amplitude: 200 });
const { onset: _onset, ...unmoved } = whole.times;
const { press: _press, ...unpressed } = whole.times;
const { amplitude: _amplitude, ...unaimed } = whole;
const withoutAxis: Acquisition = { ...whole, errors: { press: { radial: 3, inside: true } } };
const rows: readonly Acquisition[] = [
  whole,
  { ...whole, times: unmoved },
  { ...whole, times: { ...whole.times, onset: whole.times.press! } },
  { ...whole, times: { ...whole.times, onset: whole.times.press! + 0.1 } },
  { ...whole, times: unpressed, errors: {} },
  unaimed,
  withoutAxis,
  { ...whole, outcome: "recovered", errors: { press: errorOf(-20, 0) } },
  { ...whole, outcome: "miss", width: 20, errors: { press: errorOf(30, 0) } },
];

// Source: worked by hand: latency 0.25, movement 0.5, press 0.125 later, all exact in binary; 200 px away
describe("pointingTrials by both times against outside values", () => {
  it("counts from go, and then needs no onset", () => {
    const { trials, kept, leftOut, warnings } = pointingTrials(rows);
    expect(kept).toEqual([0, 1, 2, 3, 7, 8]);
    expect(leftOut).toEqual({ noPress: 1, noAxis: 2, noOnset: 0 });
    expect([...trials.movementTime]).toEqual([0.875, 0.875, 0.875, 0.875, 0.875, 0.875]);
    expect([...trials.along]).toEqual([3, 3, 3, 3, -20, 30]);
    expect([...trials.travelled!]).toEqual([203, 203, 203, 203, 180, 230]);
    expect([...trials.amplitude]).toEqual([200, 200, 200, 200, 200, 200]);
    expect([...trials.width]).toEqual([10, 10, 10, 10, 10, 20]);
    expect([...trials.hit!]).toEqual([1, 1, 1, 1, 0, 0]);
    expect(trials.person).toEqual(["1", "1", "1", "1", "1", "1"]);
    expect(warnings).toEqual([]);
  });

  it("counts from the onset, and leaves out rows whose onset is not before the press", () => {
    const { trials, kept, leftOut } = pointingTrials(rows, { time: "onsetToPress", person: "left hand" });
    expect(kept).toEqual([0, 7, 8]);
    expect(leftOut).toEqual({ noPress: 1, noAxis: 2, noOnset: 3 });
    expect([...trials.movementTime]).toEqual([0.625, 0.625, 0.625]);
    expect(trials.person).toEqual(["left hand", "left hand", "left hand"]);
  });

  it("takes block and width for a condition, its amplitude the mean, and warns above a tenth", () => {
    const at = (amplitude: number, more: Partial<Acquisition> = {}): Acquisition => ({ ...whole, amplitude, ...more });
    // SD of 90 and 110 is sqrt(200) = 14.1, above a tenth of 100; of 95 and 105 it is 7.1
    const mixed = pointingTrials([at(90), at(110), at(300, { block: "2" }), at(500, { width: 20 })]);
    expect([...mixed.trials.amplitude]).toEqual([100, 100, 300, 500]);
    expect(mixed.warnings).toEqual(["mixedAmplitudes"]);
    expect(pointingTrials([at(95), at(105), at(300, { block: "2" })]).warnings).toEqual([]);
    const named = pointingTrials([at(90), at(110)], { condition: (row) => ({ amplitude: row.amplitude! + 1, width: 2 * row.width }) });
    expect([...named.trials.amplitude]).toEqual([91, 111]);
    expect([...named.trials.width]).toEqual([20, 20]);
    expect(named.warnings).toEqual([]);
  });

  it("makes nothing of no rows", () => {
    const { trials, kept, leftOut, warnings } = pointingTrials([]);
    expect([kept, leftOut, warnings]).toEqual([[], { noPress: 0, noAxis: 0, noOnset: 0 }, []]);
    expect(trials.along).toHaveLength(0);
  });
});
