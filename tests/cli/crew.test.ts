// Worker threads for as long as a study lasts: nothing of a session stays when it is done with.
import { rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { afterAll, describe, expect, it } from "vitest";
import { hireCrew } from "../../src/cli/crew.js";

const MEGABYTE = 2 ** 20;
const file = join(tmpdir(), `aimed-movement-worker-${process.pid}.mjs`);
writeFileSync(
  file,
  `export default ({ place: { line } }) => {
    if (line < 0) throw new Error("no such line");
    return JSON.stringify({ ok: true, name: "x".repeat(${MEGABYTE}), line });
  };`,
);
afterAll(() => rmSync(file));
setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

const task = (line: number) => ({ place: { file: "f", line, name: `f:${line}` }, repair: false, mostBytes: 1 });

describe("a crew", () => {
  it("holds nothing of what it has done", { timeout: 60_000 }, async () => {
    const crew = await hireCrew(pathToFileURL(file), 2);
    try {
      const work = async (count: number) => {
        for (let line = 1; line <= count; line++) expect((await crew.analyse(task(line))).text!.length).toBeGreaterThan(MEGABYTE);
        collect();
        return process.memoryUsage().heapUsed / MEGABYTE;
      };
      const before = await work(20);
      expect((await work(120)) - before).toBeLessThan(20);
    } finally {
      await crew.dismiss();
    }
  });
  it("tells of what a worker could not do, and goes on", async () => {
    const crew = await hireCrew(pathToFileURL(file), 1);
    try {
      expect(await crew.analyse(task(-1))).toEqual({ outcome: { ok: false, message: "f:-1: could not be analysed: no such line" } });
      expect((await crew.analyse(task(3))).outcome).toMatchObject({ ok: true, line: 3 });
    } finally {
      await crew.dismiss();
    }
  });
  it("that cannot come up says so of every session", async () => {
    const crew = await hireCrew(pathToFileURL(join(tmpdir(), "there-is-no-such-worker.mjs")), 1);
    const first = crew.analyse(task(1));
    expect((await first).outcome).toMatchObject({ ok: false, message: expect.stringContaining("f:1: could not be analysed: ") });
    expect((await crew.analyse(task(2))).outcome).toMatchObject({
      ok: false,
      message: expect.stringContaining("f:2: could not be analysed: "),
    });
    await crew.dismiss();
  });
});
