// Workers change nothing but the time: order, bytes, messages; and what one of them dies of stays its own.
import { spawnSync } from "node:child_process";
import { afterAll, describe, expect, it } from "vitest";
import { analyseInOrder, type Job } from "../../src/cli/analyse-in-order.js";
import type { SessionTask } from "../../src/cli/analyse-session.js";
import type { Crew } from "../../src/cli/crew.js";
import { formatRecording } from "../../src/trace/format-recording.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import { bundleCommand } from "./bundle-command.js";
import { folderWith, lines, removeFolders, run, sitting } from "./run-command.js";

const { command, worker, remove } = bundleCommand();
afterAll(() => {
  removeFolders();
  remove();
});

const crowd = ["Ada", "Bo", "Cy"].flatMap((person, k) => [1, 2, 3].map((day) => sitting(person, day + 5 * k, { movements: 4 + 9 * day })));
const club = folderWith({
  ...Object.fromEntries(crowd.map((text, i) => [`${i}.jsonl`, text])),
  "3-wrong.jsonl": crowd[1]!.replace('"kind":"trial"', '"kind":"trail"'),
  "4-empty.jsonl": "",
  "5-cut.jsonl": sitting("Dee", 9).slice(0, -40),
  "6-twin.jsonl": crowd[0]!,
  "7-many.jsonl": [20, 21, 22, 23].map((day) => sitting("Eve", day, { movements: 5 })).join(""),
});
const tables = formatRecording(parseRecording(sitting("Flo", 11)).session, { form: "csv" });
const flo = folderWith(Object.fromEntries(Object.entries(tables).map(([name, text]) => [`${name}.csv`, text])));
const always = { manyBytes: 0, worker };
/** Targets that nobody aims at, and a heap that cannot hold them, in any version of Node from 20 to 26, but all else. */
const UNUSED = 120_000;
const HEAP_MB = 32;

describe("workers", () => {
  it.each([
    ["csv", []],
    ["json", ["--repair", "--person", "Cy"]],
    ["text", ["--person", "Cy"]],
    ["parquet", []],
    ["tally", []],
  ] as const)("give the same bytes and words in %s, however many", { timeout: 90_000 }, async (form, options) => {
    const of = (workers: number) => run([club, flo, "--form", form, ...options, "--workers", String(workers)], undefined, always);
    const alone = await of(1);
    expect(alone.out.length).toBeGreaterThan(1000);
    expect(await of(2)).toEqual(alone);
    expect(await of(4)).toEqual(alone);
  });
  it("take the sessions of one stream, cut anywhere, beyond a limit and behind a fault", async () => {
    const stream = Buffer.from(crowd.join("").replace('"kind":"press"', '"kind":"pressed"'));
    const pieces = Array.from({ length: Math.ceil(stream.length / 777) }, (_, i) => stream.subarray(777 * i, 777 * (i + 1)));
    const mostBytes = Buffer.byteLength(crowd[1]!);
    const of = (workers: number) => run(["--form", "csv", "--workers", String(workers)], pieces, { ...always, mostBytes });
    const alone = await of(1);
    expect(alone.err).toContain("must have at most");
    expect(alone.err).toContain('"pressed"');
    expect(await of(3)).toEqual(alone);
  });
  it("start where there is much to do, and not before", async () => {
    // a worker that cannot be: whoever asks for it gets words
    const nowhere = new URL("nowhere.js", worker);
    expect((await run([club, "--form", "csv", "--workers", "2"], undefined, { worker: nowhere })).err).not.toContain(
      "could not be analysed",
    );
    const started = await run([club, "--form", "csv", "--workers", "2"], undefined, { worker: nowhere, manyBytes: 1000 });
    expect(started.code).toBe(2);
    expect(started.err).toMatch(/0\.jsonl: could not be analysed: .*nowhere/);
  });
  it("that run out of memory lose their session alone", { timeout: 60_000 }, () => {
    // much to hold for the worker, and little to say of it for the program
    const unused = Array.from({ length: UNUSED }, (_, i) =>
      JSON.stringify({
        kind: "target",
        recording: 1,
        id: `unused-${i}`,
        tShown: 1e4 + i,
        shape: { kind: "circle", diameter: 40 },
        at: { x: i, y: i },
      }),
    );
    const folder = folderWith({
      "1.jsonl": crowd[0]!,
      "2-large.jsonl": `${sitting("Gus", 3, { movements: 4 })}${unused.join("\n")}\n`,
      ...Object.fromEntries([3, 4, 5, 6].map((i) => [`${i}.jsonl`, crowd[i]!])),
    });
    // Node's own bound on the heap of the program, which holds for each thread
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [`--max-old-space-size=${HEAP_MB}`, command, folder, "--form", "json", "--workers", "2"],
      { encoding: "utf8", maxBuffer: 2 ** 27 },
    );
    expect(stderr).toMatch(/^.*2-large\.jsonl: needs more memory than Node gives a program; .*\n$/);
    expect(status).toBe(1);
    expect(lines(stdout).filter(({ kind }) => kind === "summary")).toHaveLength(5);
  });
});

describe("sessions in work", () => {
  const task = (i: number): Job => ({
    input: i,
    task: { place: { file: `${i}`, line: 1, name: `${i}` }, repair: false, mostBytes: 100, pieces: pieces() },
  });
  async function* pieces(): AsyncGenerator<Uint8Array> {
    yield new Uint8Array(10);
  }
  const idle = () => new Promise((go) => setTimeout(go, 20));
  async function* jobs(): AsyncGenerator<Job> {
    for (let i = 0; i < 50; i++) yield task(i);
  }
  it("are no more than there is room for, while nobody takes what is done", async () => {
    let begun = 0;
    const crew: Crew = {
      analyse: async ({ place }: SessionTask) => {
        begun++;
        return { outcome: { ok: false, message: place.name } };
      },
      dismiss: async () => {},
    };
    const outcomes = analyseInOrder(jobs(), async () => crew, { sessions: 4, bytes: 1000 });
    for (let taken = 1; taken <= 50; taken++) {
      const { value } = await outcomes.next();
      expect(value!.outcome).toEqual({ ok: false, message: `${taken - 1}` });
      await idle();
      expect(begun).toBeLessThanOrEqual(taken + 4);
    }
  });
  it("hold no more bytes together than there is room for, and one of them any number", async () => {
    const read: number[] = [];
    const finish: (() => void)[] = [];
    const crew: Crew = {
      analyse: async ({ place, pieces: own }: SessionTask) => {
        for await (const piece of own!) read.push(piece.length);
        await new Promise<void>((resolve) => finish.push(resolve));
        return { outcome: { ok: false, message: place.name } };
      },
      dismiss: async () => {},
    };
    const narrow = analyseInOrder(jobs(), async () => crew, { sessions: 100, bytes: 30 });
    const first = narrow.next();
    await idle();
    expect(read).toEqual([10, 10, 10]);
    // one that is done with makes room for one, though another is still in work before it
    finish[1]!();
    await idle();
    expect(read).toHaveLength(4);
    finish[0]!();
    expect((await first).value!.outcome).toEqual({ ok: false, message: "0" });
    const tight = analyseInOrder(jobs(), async () => crew, { sessions: 100, bytes: 5 });
    void tight.next();
    await idle();
    expect(read).toHaveLength(6);
  });
});
