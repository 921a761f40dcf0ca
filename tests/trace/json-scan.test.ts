import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { nextElement, scanJson } from "../../src/trace/form/json-scan.js";

const damaged = fc
  .tuple(
    fc.json({ noUnicodeString: false }),
    fc.nat(),
    fc.nat({ max: 2 }),
    fc.constantFrom("", "{", "]", '"', ",", "1", "\\", "e", " ", "\n", "\u0001", "tru"),
  )
  .map(([text, at, remove, insert]) => text.slice(0, at % (text.length + 1)) + insert + text.slice((at % (text.length + 1)) + remove));

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

describe("scanJson against outside values", () => {
  // Source: ECMAScript's JSON.parse decides what is JSON.
  test.prop([damaged], { numRuns: 3000 })("finds a mistake just where JSON.parse finds one", (text) => {
    expect(scanJson(text).wrongAt === undefined).toBe(parses(text));
  });

  // Source: V8's message of JSON.parse for the same texts, "at position n".
  it.each([
    ['{"a":1,}', 7],
    ['{"a" 1}', 5],
    ["[1,2", 4],
    ["[1 2]", 3],
  ])("places the mistake in %s", (text, at) => expect(scanJson(text).wrongAt).toBe(at));
});

describe("scanJson properties", () => {
  const value = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.string(), fc.constantFrom(null, true, [], {}));

  test.prop([fc.dictionary(fc.string(), fc.array(value, { minLength: 1 }), { minKeys: 1, noNullPrototype: true }), fc.nat(), fc.nat()])(
    "finds where a value stands",
    (object, a, b) => {
      const keys = Object.keys(object);
      const key = keys[a % keys.length]!;
      const index = b % object[key]!.length;
      const text = JSON.stringify(object, null, 1);
      const { at } = scanJson(text, [key, index]);
      expect(text.slice(at)).toMatch(/^\S/);
      let from = scanJson(text, [key, 0]).at!;
      for (let i = 0; i < index; i++) from = nextElement(text, from);
      expect(from).toBe(at);
      expect(text.slice(at).startsWith(JSON.stringify(object[key]![index]).slice(0, 1))).toBe(true);
    },
  );

  it("names the first field that comes twice in one object", () => {
    expect(scanJson('{"a":{"b":1},"b":2,"c":{"b":1,"\\u0062":2},"a":3}').twice).toEqual({ field: "b", at: 30 });
    expect(scanJson('[{"a":1},{"a":1}]').twice).toBeUndefined();
  });

  it("does not run out of stack in deep nesting", () => {
    const deep = 200_000;
    expect(scanJson("[".repeat(deep) + "]".repeat(deep)).wrongAt).toBeUndefined();
    expect(scanJson("[".repeat(deep)).wrongAt).toBe(deep);
  });
});
