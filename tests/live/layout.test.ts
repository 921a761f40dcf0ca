import { describe, expect, it } from "vitest";
import { circleDiameter, conditionsFor, placesInOrder, shuffled, TARGETS } from "../../docs/live/layout.js";
import { indexOfDifficulty } from "../../src/fitts/index.js";
import { createRandom } from "../../src/math/random.js";

const CENTRE = { x: 300, y: 240 };
type Place = { readonly x: number; readonly y: number };
const distance = (a: Place, b: Place): number => Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);

describe("the layout of targets against outside values", () => {
  // Source: chords of regular polygons, textbook. The longest diagonal of a regular pentagon is the golden ratio times its side.
  it("has the way across of a regular polygon", () => {
    const side = 2 * Math.sin(Math.PI / 5) * (circleDiameter(1, 5) / 2);
    expect(1 / side).toBeCloseTo((1 + Math.sqrt(5)) / 2, 12);
    expect(circleDiameter(1, 3)).toBeCloseTo(2 / Math.sqrt(3), 12);
  });

  // Source: ISO 9241-411, annex B, recalled: targets equally spaced on a circle, each next one across, until all were visited.
  it("stands on a circle at equal spaces, and goes across until the first comes again", () => {
    for (const count of [3, 5, 9, 11, 13, 25]) {
      const places = placesInOrder(320, count, CENTRE);
      const radius = circleDiameter(320, count) / 2;
      for (const place of places) expect(distance(place, CENTRE)).toBeCloseTo(radius, 9);
      const angles = places.map(({ x, y }) => Math.atan2(y - CENTRE.y, x - CENTRE.x)).sort((a, b) => a - b);
      for (let i = 1; i < count; i++) expect(angles[i]! - angles[i - 1]!).toBeCloseTo((2 * Math.PI) / count, 9);
      for (let i = 0; i < count; i++) expect(distance(places[i]!, places[(i + 1) % count]!)).toBeCloseTo(320, 9);
    }
  });

  // Source: Shannon form of the index of difficulty, log2(A/W + 1): 180/40, 180/16, 360/40 and 360/16, worked by hand.
  it("has difficulties of 2.46 to 4.55 bit where there is room", () => {
    const found = conditionsFor({ width: 700, height: 480 }).map(({ amplitude, width }) => indexOfDifficulty(amplitude, width));
    [2.4594, 3.6147, 3.3219, 4.5546].forEach((bits, i) => {
      expect(found[i]!).toBeCloseTo(bits, 4);
    });
  });
});

describe("the layout of targets properties", () => {
  it("fits into every field, and no target touches another", () => {
    for (let width = 180; width < 1200; width += 7) {
      for (const condition of conditionsFor({ width, height: 480 })) {
        const places = placesInOrder(condition.amplitude, TARGETS, { x: width / 2, y: 240 });
        for (const [i, place] of places.entries()) {
          expect(Math.min(place.x, width - place.x, place.y, 480 - place.y)).toBeGreaterThan(condition.width / 2 + 8);
          for (const other of places.slice(i + 1)) expect(distance(place, other)).toBeGreaterThan(condition.width);
        }
      }
    }
  });

  it("takes conditions in an order that loses none", () => {
    expect(shuffled([1, 2, 3, 4, 5], createRandom(3)).sort()).toEqual([1, 2, 3, 4, 5]);
    expect(new Set(Array.from({ length: 200 }, (_, i) => shuffled([1, 2, 3], createRandom(i)).join(""))).size).toBe(6);
  });
});

describe("the layout of targets bad input", () => {
  it("names an even number, and a field without room", () => {
    expect(() => circleDiameter(100, 10)).toThrow("circleDiameter: count must be an odd whole number from 3 on, got 10");
    expect(() => conditionsFor({ width: 120, height: 480 })).toThrow(
      "conditionsFor: the field must be at least 170 px wide and high, got 120 by 480",
    );
  });
});
