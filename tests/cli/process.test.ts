// The command as a process of its own: signals, pipes that close, a full disk, and memory.
import { type ChildProcess, spawn } from "node:child_process";
import { createReadStream, createWriteStream, existsSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { bundleCommand } from "./bundle-command.js";
import { folderWith, lines, removeFolders, sitting } from "./run-command.js";

afterAll(removeFolders);

const { command, remove } = bundleCommand();
const COMMAND = [command];
afterAll(remove);
const ada = sitting("Ada", 1, { movements: 4 });
const bo = sitting("Bo", 2, { movements: 40 });

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

interface Started extends ChildProcess {
  readonly said: { readonly out: string; readonly err: string };
  readonly ended: Promise<Ended>;
}

function start(argv: readonly string[], stdout: "pipe" | number = "pipe"): Started {
  const child = spawn(process.execPath, [...COMMAND, ...argv], { stdio: ["pipe", stdout, "pipe"] });
  const said = { out: "", err: "" };
  child.stdout?.on("data", (text) => {
    said.out += text;
  });
  child.stderr!.on("data", (text) => {
    said.err += text;
  });
  child.stdin!.on("error", () => {});
  const ended = new Promise<Ended>((done) => child.on("close", (code) => done({ code, ...said })));
  return Object.assign(child, { said, ended });
}

async function until(holds: () => boolean, child: Started): Promise<void> {
  const end = Date.now() + 20_000;
  while (!holds() && Date.now() < end) await new Promise((go) => setTimeout(go, 20));
  expect({ holds: holds(), code: child.exitCode, signal: child.signalCode, ...child.said }).toMatchObject({ holds: true });
}

describe("the command as a process", () => {
  it("passes sessions from pipe to pipe as they come", async () => {
    const child = start(["--form", "json"]);
    let early = "";
    child.stdout!.on("data", (text) => {
      early += text;
    });
    child.stdin!.write(ada + bo);
    // the second session has no end yet; the first is out
    await until(() => early.includes('"kind":"summary"'), child);
    child.stdin!.end();
    const { code, out, err } = await child.ended;
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(lines(out).filter(({ kind }) => kind === "summary")).toHaveLength(2);
  });
  // Source: POSIX: a process that a signal ended is told as 128 plus its number, 1 for SIGHUP, 2 for SIGINT and 15 for SIGTERM
  it.each([
    ["SIGHUP", 129],
    ["SIGINT", 130],
    ["SIGTERM", 143],
  ] as const)("leaves no file when %s ends it, and ends with %i", async (signal, code) => {
    const folder = folderWith({ "table.csv": "old" });
    const child = start(["--form", "csv", "--out", join(folder, "table.csv"), "-"]);
    child.stdin!.write(ada + bo);
    await until(() => readdirSync(folder).some((name) => name.endsWith(".part")), child);
    child.kill(signal);
    expect((await child.ended).code).toBe(code);
    expect(readdirSync(folder)).toEqual(["table.csv"]);
    expect(readFileSync(join(folder, "table.csv"), "utf8")).toBe("old");
  });
  it("ends in silence when its reader has seen enough", async () => {
    const child = start(["--form", "json"]);
    child.stdout!.destroy();
    child.stdin!.end(ada + bo);
    expect(await child.ended).toMatchObject({ code: 0, err: "" });
  });
  it("goes on when nobody hears its messages any more", async () => {
    const folder = folderWith({ "a.jsonl": ada, ...Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`b-${i}.jsonl`, ada])) });
    const child = start([folder, "--form", "csv"]);
    child.stderr!.once("data", () => child.stderr!.destroy());
    const { code, out } = await child.ended;
    expect(code).toBe(1);
    expect(out.trim().split("\n")).toHaveLength(5);
  });
  it.skipIf(!existsSync("/dev/full"))("says in one line that the disk is full", async () => {
    const child = start(["--form", "json"], openSync("/dev/full", "w"));
    child.stdin!.end(ada);
    const { code, err } = await child.ended;
    expect(code).toBe(1);
    expect(err).toMatch(/^aimed-movement: standard output cannot be written: .*no space left.*\n$/);
  });
});

// Writes and reads some hundred megabytes: only where it is asked for.
const MEGABYTES = Number(process.env.AIMED_MOVEMENT_LARGE_MB ?? 0);
describe.skipIf(MEGABYTES === 0)("the command, given more than it can hold,", () => {
  it("keeps no more than a session and the rows", { timeout: 600_000 }, async () => {
    const folder = mkdtempSync(join(tmpdir(), "aimed-movement-large-"));
    const file = join(folder, "large.jsonl");
    const writer = createWriteStream(file);
    const body = bo.slice(bo.indexOf("\n"));
    const count = Math.ceil((MEGABYTES * 1e6) / bo.length);
    for (let i = 0; i < count; i++) {
      const startedAt = new Date(Date.UTC(2020, 0, 1) + i * 36e5).toISOString();
      const head = bo.slice(0, bo.indexOf("\n")).replace("2026-03-02T18:00:00Z", startedAt);
      if (!writer.write(head + body)) await new Promise((go) => writer.once("drain", () => go(undefined)));
    }
    await new Promise((done) => writer.end(() => done(undefined)));
    const child = start(["--form", "csv", file], openSync(join(folder, "out.csv"), "w"));
    let peak = 0;
    const watch = setInterval(() => {
      const status = existsSync(`/proc/${child.pid}/status`) ? readFileSync(`/proc/${child.pid}/status`, "utf8") : "";
      peak = Math.max(peak, Number(/VmHWM:\s*(\d+)/.exec(status)?.[1] ?? 0) / 1024);
    }, 50);
    const { code, err } = await child.ended;
    clearInterval(watch);
    let rows = 0;
    for await (const piece of createReadStream(join(folder, "out.csv"))) rows += String(piece).split("\n").length - 1;
    rmSync(folder, { recursive: true });
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(rows).toBe(1 + 40 * count);
    console.log(`${count} sessions, ${MEGABYTES} MB: peak ${peak.toFixed(0)} MiB`);
    expect(peak).toBeLessThan(400);
  });
});
