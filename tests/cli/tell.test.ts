import { describe, expect, it } from "vitest";
import { createTeller } from "../../src/cli/tell.js";

function sink(isTTY: boolean) {
  const texts: string[] = [];
  return { texts, isTTY, write: (text: string) => texts.push(text) > 0, once: () => undefined };
}

/** What a terminal shows in the end: a carriage return goes back to the beginning of the line, and what follows is written over it. */
function shown(texts: readonly string[]): string[] {
  return texts
    .join("")
    .split("\n")
    .map((line) =>
      line
        .split("\r")
        .reduce((before, over) => over + before.slice(over.length), "")
        .trimEnd(),
    );
}

describe("createTeller", () => {
  it("shows progress on a terminal alone, and clears it away before it says something", async () => {
    const terminal = sink(true);
    const teller = createTeller(terminal, false);
    await teller.at({ file: 1, files: 12, bytes: 35_400_000, seconds: 1 });
    expect(shown(terminal.texts)).toEqual(["reading 1 of 12, 35 MB"]);
    // too soon for an eye
    await teller.at({ file: 2, files: 12, bytes: 36e6, seconds: 1.01 });
    expect(terminal.texts).toHaveLength(1);
    await teller.say("short");
    expect(shown(terminal.texts)).toEqual(["short", ""]);
    for (const [tty, quiet] of [
      [false, false],
      [true, true],
    ] as const) {
      const other = sink(tty);
      await createTeller(other, quiet).at({ file: 1, files: 2, bytes: 1e6, seconds: 1 });
      expect(other.texts).toEqual([]);
    }
  });
  it("keeps notes to itself when it is to be quiet, errors never", async () => {
    const file = sink(false);
    const teller = createTeller(file, true);
    await teller.note("a note");
    await teller.say("an error");
    expect(file.texts).toEqual(["an error\n"]);
  });
  it("lets nothing from a name act on the terminal", async () => {
    const file = sink(false);
    // Source: ECMA-48: 1B and 9B begin control sequences; Unicode Standard Annex 9: 200E, 200F, 202A to 202E and 2066 to 2069 turn directions
    await createTeller(file, false).say("a\u001b[31m\u009b1m\u202eb\u200f\u2066\rc\nd");
    expect(file.texts).toEqual([`a\ufffd[31m\ufffd1m\ufffdb\ufffd\ufffd\ufffdc\ufffdd\n`]);
  });
});
