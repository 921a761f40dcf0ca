import { describe, expect, it } from "vitest";
import { type Jackknifed, jackknifeCell } from "../../../src/fitts/cells/jackknife-cell.js";

const ALONG = [-6, 3, 1, -2, 7, 4, -5];
const TIMES = [0.6, 0.71, 0.55, 0.68, 0.62, 0.8, 0.66];

function jackknife(along: readonly number[], times: readonly number[]): Jackknifed | undefined {
  const trials = along.map((off, at) => ({ at, along: off, travelled: 200 + off, movementTime: times[at]!, hit: true }));
  return jackknifeCell({ person: "1", amplitude: 200, width: 20, trials });
}

describe("jackknifeCell against outside values", () => {
  // Source: definition (Tukey 1958, recalled): n T - (n - 1) T_i from each sample of n - 1 written out, T = log2(Ae/(4.133 SD) + 1)/MT
  it("is the mean of the pseudo-values and their variance over n", () => {
    const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = (values: readonly number[]): number =>
      values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1);
    const throughputOf = (kept: readonly number[]): number => {
      const along = kept.map((i) => ALONG[i]!);
      return Math.log2((200 + mean(along)) / (4.133 * Math.sqrt(variance(along))) + 1) / mean(kept.map((i) => TIMES[i]!));
    };
    const all = [...ALONG.keys()];
    const pseudo = all.map((out) => 7 * throughputOf(all) - 6 * throughputOf(all.filter((i) => i !== out)));
    const { value, variance: found, df } = jackknife(ALONG, TIMES)!;
    expect(value).toBeCloseTo(mean(pseudo), 10);
    expect(found).toBeCloseTo(variance(pseudo) / 7, 10);
    expect(df).toBe(6);
  });
});

describe("jackknifeCell properties", () => {
  it("does not mind the order of the trials", () => {
    expect(jackknife([...ALONG].reverse(), [...TIMES].reverse())!.value).toBeCloseTo(jackknife(ALONG, TIMES)!.value, 12);
  });
});

describe("jackknifeCell bad input", () => {
  it("has no value where the others of a trial are all alike, without spread, or with five trials", () => {
    expect(jackknife([4, 4, 4, 9, 4, 4, 4], TIMES)).toBeUndefined();
    expect(jackknife([4, 4, 4, 4, 4, 4, 4], TIMES)).toBeUndefined();
    expect(jackknife(ALONG.slice(0, 5), TIMES)).toBeUndefined();
    expect(jackknife(ALONG.slice(0, 6), TIMES)).toBeDefined();
  });
});
