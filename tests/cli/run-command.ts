// The command with streams of its own, and folders that go away.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Limits } from "../../src/cli/limits.js";
import { main } from "../../src/cli/main.js";
import type { SimulateRecordingOptions } from "../../src/simulate/options.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import { formatRecording } from "../../src/trace/format-recording.js";
import type { Session } from "../../src/trace/types.js";

/** What one run said and how it ended. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command; `input` is what stands on standard input, in these pieces. A terminal when there is none. `limits`: what one session may have, and when workers start. */
export async function run(argv: readonly string[], input?: readonly (string | Uint8Array)[], limits?: Partial<Limits>): Promise<Ran> {
  const written = { out: "", err: "" };
  const sink = (to: "out" | "err") => ({
    write: (content: string | Uint8Array) => {
      written[to] += typeof content === "string" ? content : Buffer.from(content).toString("latin1");
      return true;
    },
    once: () => undefined,
  });
  async function* pieces(): AsyncGenerator<string | Uint8Array> {
    yield* input ?? [];
  }
  const stdin = Object.assign(pieces(), { isTTY: input === undefined });
  const code = await main(argv, { stdin, stdout: sink("out"), stderr: sink("err") }, limits);
  return { code, ...written };
}

const folders: string[] = [];
/** Takes away every folder made so far; each file of tests does so at its end, since files share this module. */
export function removeFolders(): void {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
}

/** A new folder with these files. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), "aimed-movement-"));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

/** One sitting of an invented person as a file of JSON Lines. */
export function sitting(person: string, day: number, options: SimulateRecordingOptions = {}, more: Partial<Session> = {}): string {
  const { recording } = simulateRecording({ seed: 70 + day, movements: 25, ...options });
  const startedAt = `2026-03-${String(day).padStart(2, "0")}T18:00:00Z`;
  return formatRecording({ person, startedAt, equipment: { id: "desk", refreshHz: 144, latency: 0.03 }, recordings: [recording], ...more });
}

/** Lines of JSON as objects. */
export function lines(text: string): Record<string, unknown>[] {
  return text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line));
}
