import { describe, expect, it } from "vitest";
import { comparePrinted, differences, parsePrinted } from "./printed.js";

const differ = (actual: unknown, text: string) => differences(actual, parsePrinted(text));

describe("a printed value", () => {
  it.each([
    [12.04973, "12.0497"],
    [-0.00012, "-1.2e-4"],
    [5, "5"],
    [24.99999999999998, "25"],
    [-0, "0"],
    [Number.NaN, "NaN"],
    [undefined, "undefined"],
    ["a b", '"a b"'],
    ["trial 12 missed", '"trial … missed"'],
    [[1, 2, 3], "[1, 2, 3]"],
    [[1, 2, 3, 4], "[1, …, 4]"],
    [Float64Array.of(0, 0.5), "Float64Array [0, 0.50]"],
    [Float64Array.of(0, 0.5), "Float64Array(2) [0, …]"],
    [{ ok: true, value: 12.0497, n: 5 }, "{ ok: true, value: 12.0497, … }"],
    [{ a: { b: [1] }, c: undefined }, "{ a: { b: [1] } }"],
    [{ "two words": 1 }, '{ "two words": 1, ... }'],
    [{ anything: 1 }, "…"],
  ])("fits %j as %s", (actual, text) => expect(differ(actual, text)).toEqual([]));

  it.each([
    [12.0498, "12.0497"],
    [5.01, "5"],
    [24.9999, "25"],
    [1e-12, "0"],
    [1.3e-4, "1.2e-4"],
    ["5", "5"],
    [null, "undefined"],
    [[1, 2], "[1, 2, 3]"],
    [[1, 2, 3], "[1, 2]"],
    [[1, 2, 5], "[1, …, 4]"],
    [[0, 0.5], "Float64Array [0, 0.5]"],
    [{ ok: true, n: 5 }, "{ ok: true }"],
    [{ ok: false, n: 5 }, "{ ok: true, … }"],
    [{}, "{ value: 1, … }"],
    ["trial 12 hit", '"trial … missed"'],
    [5, "RangeError: five"],
  ])("does not fit %j as %s", (actual, text) => expect(differ(actual, text)).not.toEqual([]));

  it.each(["", "12.", "about 5", "{ a 1 }", "[1, 2", '"open', "5 6"])("refuses %j, which is no value", (text) =>
    expect(() => parsePrinted(text)).toThrow(SyntaxError),
  );

  it("is the error that an expression throws", async () => {
    const run = () => {
      throw new RangeError("width: must be above 0, got -1");
    };
    expect(await comparePrinted(run, "RangeError: must be above 0")).toEqual([]);
    expect(await comparePrinted(run, "RangeError: must be below 0")).not.toEqual([]);
    expect(await comparePrinted(run, "TypeError: must be above 0")).not.toEqual([]);
    expect(await comparePrinted(() => 5, "RangeError: must be above 0")).not.toEqual([]);
    await expect(comparePrinted(run, "5")).rejects.toThrow(RangeError);
  });
});
