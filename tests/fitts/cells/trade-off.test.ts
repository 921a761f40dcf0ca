import { describe, expect, it } from "vitest";
import { type SpreadCell, slopeWithin, tradeOff } from "../../../src/fitts/cells/trade-off.js";

/** A person's cells on the line MT = a + b IDe; the fit reads difficulty and time alone. */
const onLine = (intercept: number, slope: number, difficulties: readonly number[]): SpreadCell[] =>
  difficulties.map((effectiveDifficulty) => {
    const movementTime = intercept + slope * effectiveDifficulty;
    return { effectiveDifficulty, movementTime, throughput: effectiveDifficulty / movementTime } as SpreadCell;
  });

describe("tradeOff against outside values", () => {
  // Source: closed form: with endpoints k times as spread, IDe = log2(A/We + 1) becomes log2((2^IDe - 1)/k + 1), and MT follows the line
  it("follows the line to other spreads", () => {
    const line = tradeOff([onLine(0.2, 0.15, [1, 2, 3])])!;
    const throughputAt = (spread: number): number => {
      const difficulties = [1, 3, 7].map((ratio) => Math.log2(ratio / spread + 1));
      return difficulties.reduce((sum, difficulty) => sum + difficulty / (0.2 + 0.15 * difficulty), 0) / 3;
    };
    expect(line.intercept).toBeCloseTo(0.2, 12);
    expect(line.slope).toBeCloseTo(0.15, 12);
    expect(line.narrower).toBeCloseTo(throughputAt(2 / 3) / throughputAt(1), 12);
    expect(line.wider).toBeCloseTo(throughputAt(1.5) / throughputAt(1), 12);
  });

  // Source: arithmetic: 1 bit with endpoints 1.5 times as spread is log2(1/1.5 + 1) = 0.737 bit, where MT = -0.15 + 0.18 IDe would be below 0
  it("says nothing of a line that reaches below no time at the wider spread, though all times are above it", () => {
    expect(tradeOff([onLine(-0.15, 0.18, [1, 2, 3])])).toBeNull();
    expect(tradeOff([onLine(-0.13, 0.18, [1, 2, 3])])).not.toBeNull();
  });
});

describe("tradeOff properties", () => {
  it("takes out what is a person's own", () => {
    const people = [onLine(0.1, 0.2, [1, 2, 3]), onLine(0.7, 0.2, [4, 5, 6])];
    expect(slopeWithin(people)).toBeCloseTo(0.2, 12);
  });
});

describe("tradeOff bad input", () => {
  it("has no line for two cells of one person, for equal difficulties, or for times that fall", () => {
    expect(tradeOff([onLine(0.1, 0.2, [1, 2])])).toBeNull();
    expect(tradeOff([onLine(0.1, 0.2, [2, 2, 2])])).toBeNull();
    expect(tradeOff([onLine(0.9, -0.1, [1, 2, 3])])).toBeNull();
    expect(tradeOff([])).toBeNull();
  });
});
