// A downloaded recording against what the browser itself saw, and against what the command makes of it.
import { execFileSync } from "node:child_process";
import type { Page } from "playwright-core";
import { acquisitionCells } from "../../docs/live/acquisition-table.js";
import { analyze } from "../../src/movement/index.js";
import { formatRecording } from "../../src/trace/index.js";
import type { Session } from "../../src/trace/types.js";
import { check } from "./checks.js";

declare global {
  /** Every position over the field while a task runs, by a listener of the test: time (ms), x, y from the field's corner. */
  var pointerSeen: [t: number, x: number, y: number][];
}

export async function watchPointer(page: Page): Promise<void> {
  await page.evaluate(() => {
    globalThis.pointerSeen = [];
    const field = document.querySelector(".live-field")!;
    for (const type of ["pointermove", "pointerdown", "pointerup"] as const) {
      addEventListener(type, (event) => {
        if (!field.classList.contains("live-runs") || !event.composedPath().includes(field)) return;
        const { left, top } = field.getBoundingClientRect();
        const merged = event.getCoalescedEvents();
        for (const { timeStamp, clientX, clientY } of merged.length > 0 ? merged : [event])
          globalThis.pointerSeen.push([timeStamp, clientX - left, clientY - top]);
      });
    }
  });
}

/** The file is whole, read back to the last bit, and holds every position that the browser told of. */
export async function checkSeen(page: Page, text: string, session: Session): Promise<void> {
  check("download: read and written again, the same bytes", formatRecording(session) === text);
  const seen = await page.evaluate(() => globalThis.pointerSeen);
  const recorded = session.recordings.flatMap(({ trace }) => [...trace.t].map((t, i) => [1000 * t, trace.x[i]!, trace.y[i]!] as const));
  const zero = seen[0]![0] - recorded[0]![0];
  const off = seen.reduce(
    (most, [, x, y], i) => Math.max(most, Math.abs(x - (recorded[i]?.[1] ?? 1e9)), Math.abs(y - (recorded[i]?.[2] ?? 1e9))),
    0,
  );
  const late = seen.map(([t], i) => (recorded[i]?.[0] ?? 1e9) - (t - zero));
  check(
    `download: the ${seen.length} positions that the browser told of, each once and in its place`,
    seen.length === recorded.length && off < 1e-9,
    [recorded.length, off],
  );
  // what comes too late for a chunk that was given already is moved up to it, and never back
  const exact = late.filter((by) => Math.abs(by) < 1e-3).length;
  check(
    `download: ${exact} of them at the browser's own times, none earlier`,
    exact >= 0.8 * late.length && late.every((by) => by > -1e-3),
  );
  for (const { trials, targets, presses, frames, device } of session.recordings) {
    const shown = new Set(frames);
    check(
      `download: ${device}, ${trials.length} trials, ${targets.length} targets, ${presses.length} presses, ${frames?.length} frames; each target was shown in one of the frames`,
      trials.length > 0 &&
        presses.every(({ credited }) => credited !== undefined || trials[0]!.kind === "pursue") &&
        targets.every(({ tShown }) => shown.has(tShown)),
      device,
    );
  }
}

/** The command reads the file as it is, and finds the acquisitions that the page shows. */
export function checkByCommand(path: string, session: Session, tables: readonly string[]): void {
  const text = execFileSync("node", ["dist/cli.js", path, "--form", "json", "--quiet"], { encoding: "utf8" });
  const lines = text
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Record<string, unknown>);
  const byCommand = lines.filter(({ kind }) => kind === "acquisition");
  const rows = session.recordings.flatMap((recording) => analyze(recording));
  const isSame = rows.every(
    (row, i) => byCommand[i]?.target === row.target && byCommand[i]?.outcome === row.outcome && byCommand[i]?.end === row.times.end,
  );
  check(
    `command: ${byCommand.length} acquisitions, the same targets, outcomes and times`,
    byCommand.length === rows.length && isSame,
    byCommand[0],
  );
  const shown = tables[tables.length - 1]!;
  check(
    "command: the page shows the same lines",
    rows.every((row) => shown.includes(acquisitionCells(row).join(""))),
    shown.slice(0, 200),
  );
}
