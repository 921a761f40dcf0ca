import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { composeMovement, coveredShare, type Stroke } from "../../src/simulate/compose-movement.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const bell = fc.constantFrom<Stroke["bell"]>("minimumJerk", "earlySkewed", "lateSkewed", "speedUp", "steady", "slowDown");
const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const stroke: fc.Arbitrary<Stroke> = fc.record({
  onset: number(0, 2),
  duration: fc.oneof(number(0, 0.5), fc.constant(0)),
  dx: number(-500, 500),
  dy: number(-500, 500),
  bell,
});
const strokes = fc.array(stroke, { maxLength: 12 }).map((list) => list.sort((a, b) => a.onset - b.onset));
const times = fc.array(number(-0.5, 3), { maxLength: 30 }).map((list) => list.sort((a, b) => a - b));

describe("composeMovement against outside values", () => {
  const reference = readReference("kinematics/minimum-jerk.json");
  const grids = reference?.cases.filter(({ name }) => name.startsWith("grid:")) ?? [];

  it.skipIf(reference === undefined)(`has grids to compare with (${SHARED_ABSENT})`, () => expect(grids).toHaveLength(4));

  for (const { name, input, params, expected, tolerance } of grids) {
    // Source: reference/kinematics/minimum-jerk.json: closed form of the minimum-jerk path, evaluated by mpmath 1.2.1
    it(`moves along one minimum-jerk stroke: ${name}`, () => {
      const path = composeMovement(
        [{ onset: params.onset, duration: params.duration, dx: params.amplitude, dy: 0, bell: "minimumJerk" }],
        0,
        0,
      );
      input.t.forEach((t: number, i: number) => {
        path.moveTo(t);
        expect(within(path.x, expected.position[i], tolerance), `at ${t}: ${path.x}`).toBe(true);
      });
    });
  }

  // Source: a speed that rises from 0 to 1 as 10 s^3 - 15 s^4 + 6 s^5 (minimum jerk, from memory), integrated by hand: 1/2 at the end,
  // 5/32 - 3/32 + 1/64 = 5/64 half-way
  it("covers 5/32 of its way while getting half-way up to speed", () => expect(coveredShare("speedUp", 0.5)).toBeCloseTo(5 / 32, 14));
});

describe("composeMovement properties", () => {
  test.prop([strokes, times])("is the sum of its strokes", (list, at) => {
    const path = composeMovement(list, 3, -4);
    for (const t of at) {
      path.moveTo(t);
      let x = 3;
      let y = -4;
      for (const { onset, duration, dx, dy, bell } of list) {
        const share = t < onset ? 0 : t >= onset + duration ? 1 : coveredShare(bell, (t - onset) / duration);
        x += share * dx;
        y += share * dy;
      }
      expect(path.x).toBeCloseTo(x, 9);
      expect(path.y).toBeCloseTo(y, 9);
    }
  });

  test.prop([bell, number(0, 1)])("slows down as it speeds up, seen backward, and starts at 0 and ends at 1", (shape, s) => {
    expect(coveredShare("slowDown", s)).toBeCloseTo(1 - coveredShare("speedUp", 1 - s), 12);
    expect([coveredShare(shape, 0), coveredShare(shape, 1)]).toEqual([0, 1]);
  });
});
