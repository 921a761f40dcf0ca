import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { requireList } from "../../src/math/require-list.js";

const check = (list: unknown): (() => void) => {
  return () => requireList("f", "values", list as never);
};

describe("requireList against outside values", () => {
  // Source: ECMAScript: a DataView is a view of a buffer without entries of its own, every other view is a typed array
  it("takes arrays and typed arrays, and no other view of a buffer", () => {
    for (const list of [[], [1, 2], Float64Array.of(1, 2), new Uint8Array(3)]) expect(check(list)).not.toThrow();
    expect(check(new DataView(new ArrayBuffer(8)))).toThrow(
      new TypeError("f: values must be a list of numbers, got an object of type DataView"),
    );
  });
});

describe("requireList properties", () => {
  test.prop([fc.array(fc.double()), fc.boolean()])("takes a list exactly when each entry is finite", (values, typed) => {
    const list = typed ? Float64Array.from(values) : values;
    if (values.every(Number.isFinite)) expect(check(list)).not.toThrow();
    else expect(check(list)).toThrow(RangeError);
  });
});

describe("requireList bad input", () => {
  it("names the entry that is none", () => {
    expect(check([1, "2"])).toThrow(new TypeError('f: values[1] must be a number, got "2"'));
    expect(check([1, 2, Number.NaN])).toThrow(new RangeError("f: values[2] must be finite, got NaN"));
  });

  it.each([null, undefined, "12", 3, { length: 2, 0: 1, 1: 2 }])("refuses %j", (list) => {
    expect(check(list)).toThrow(TypeError);
  });
});
