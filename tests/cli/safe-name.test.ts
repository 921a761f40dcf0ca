import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createNamer } from "../../src/cli/safe-name.js";

describe("createNamer", () => {
  it.each([
    ["../../x", "x"],
    ["Ada Lovelace", "Ada-Lovelace"],
    ["नमस्ते", "नमस्ते"],
    ["CON", "person-CON"],
    ["..", "person"],
    ["", "person"],
    ["a\0b", "a-b"],
    ["\u202egnp.exe", "gnp-exe"],
  ])("makes of %j %j", (person, name) => expect(createNamer()(person)).toBe(name));
  it("numbers names that come out alike, in upper or lower case, composed or not", () => {
    const nameOf = createNamer();
    expect(["x", "X", "x/", "x-2", "e\u0301", "\u00c9", "straße", "STRASSE"].map(nameOf)).toEqual([
      "x",
      "X-2",
      "x-3",
      "x-2-2",
      "é",
      "É-2",
      "straße",
      "STRASSE-2",
    ]);
  });
  test.prop([fc.array(fc.string({ unit: "binary", maxLength: 120 }), { maxLength: 20 })])(
    "gives names that stay in their folder, fit every system and are all different",
    (people) => {
      const nameOf = createNamer();
      const names = people.map(nameOf);
      expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
      for (const name of names) {
        expect(name).toMatch(/^[\p{L}\p{M}\p{N}-]+$/u);
        // Source: 255 bytes, the limit of ext4, APFS and NTFS for one name (from memory); ".html" and ".4194304.part" are still added
        expect(Buffer.byteLength(name) + 18).toBeLessThanOrEqual(255);
      }
    },
  );
  it.each(["漢", "😀a", "𝒳", "é"])("shortens a long name of %s by bytes", (letter) => {
    const name = createNamer()(letter.repeat(300));
    expect(Buffer.byteLength(name)).toBeLessThanOrEqual(160);
    expect(name).not.toMatch(/\p{Surrogate}/u);
  });
});
