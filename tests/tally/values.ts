// Rows that carry given values, for what is made from rows.
import { fc } from "@fast-check/vitest";
import type { Acquisition } from "../../src/movement/types.js";
import type { TallyOptions } from "../../src/tally/types.js";
import { rowOf } from "../movement/rows.js";

/** A row whose press came `value` after the stop, or in which that is not known, and whose speed was `other`. */
export function rowWith(value: number | undefined, other?: number, more: Partial<Acquisition> = {}): Acquisition {
  const { peakSpeed, ...row } = rowOf(1, { latency: 0.2, primary: 0.3 }, more);
  return { ...row, ...(value !== undefined && { pressing: { afterStop: value } }), ...(other !== undefined && { peakSpeed: other }) };
}

/** What `rowWith` fills, and one histogram. */
export const BOTH: TallyOptions = {
  measures: ["pressAfterStop", "peakSpeed"],
  covariances: ["pressAfterStop", "peakSpeed"],
  edges: { pressAfterStop: [-1, 0, 1e9] },
};

/** Numbers of every kind that a column may hold: clock times, huge, tiny, signed, equal ones. */
export const valueArb: fc.Arbitrary<number> = fc.oneof(
  { weight: 4, arbitrary: fc.double({ min: -3, max: 3, noNaN: true }) },
  fc.double({ min: 1.7e9, max: 1.7e9 + 1000, noNaN: true }),
  fc.double({ min: -1e140, max: 1e140, noNaN: true }),
  fc.double({ min: 1e-120, max: 1e-100, noNaN: true }),
  fc.constantFrom(0, -0, 0.25),
);

/** Rows of any values, outcomes and flags, under two labels. */
export const anyRowsArb: fc.Arbitrary<Acquisition[]> = fc.array(
  fc
    .record({
      value: fc.option(valueArb, { nil: undefined, freq: 5 }),
      other: fc.option(valueArb, { nil: undefined, freq: 5 }),
      outcome: fc.constantFrom<Acquisition["outcome"]>("hit", "miss", "recovered", "timeout", "abandoned"),
      flags: fc.subarray<Acquisition["flags"][number]>(["clutch", "edge", "missingData", "longPress"]),
      pressedInMotion: fc.boolean(),
      block: fc.constantFrom("1", "2", "10"),
    })
    .map(({ value, other, ...more }) => rowWith(value, other, more)),
  { maxLength: 40 },
);

/** A double as whole number times power of two, without rounding: a decimal fraction of a few digits is not its value. */
export function asBinary(value: number): { readonly whole: string; readonly exponent: number } {
  let whole = value;
  let exponent = 0;
  while (!Number.isInteger(whole)) {
    whole *= 2;
    exponent--;
  }
  return { whole: BigInt(whole).toString(), exponent };
}
