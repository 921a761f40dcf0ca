// The built command as an installed one runs: in a shell, in a pipe, with too little room.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { VERSION } from "../../src/math/version.js";
import { folderWith, removeFolders, sitting } from "./run-command.js";

afterAll(removeFolders);

// `npm test` builds it first; a lone `vitest run` may have none
const COMMAND = resolve("dist", "cli.js");
const canRun = existsSync(COMMAND) && spawnSync("bash", ["-c", "true"]).status === 0;

/** Runs a line of bash in which `$C` is the command and `$1` a file. */
function shell(line: string, file: string): { readonly code: number | null; readonly out: string; readonly err: string } {
  const { status, stdout, stderr } = spawnSync("bash", ["-c", line, "bash", file], {
    encoding: "utf8",
    env: { ...process.env, C: `${process.execPath} ${COMMAND}` },
  });
  return { code: status, out: stdout, err: stderr };
}

describe.skipIf(!canRun)("the built command", () => {
  // enough rows for more than a pipe holds: 64 KiB on Linux
  const text = Array.from({ length: 3 }, (_, i) => sitting("Ada", i + 1, { movements: 60 })).join("");
  const folder = folderWith({ "ada.jsonl": text });
  const file = join(folder, "ada.jsonl");
  it("says its version, and runs from another folder", () => {
    expect(execFileSync(process.execPath, [COMMAND, "--version"], { encoding: "utf8", cwd: folder })).toBe(`${VERSION}\n`);
  });
  it.each(["csv", "json"])("ends in silence with 0 when head has seen enough of %s", (form) => {
    const { out, err } = shell(`$C "$1" --form ${form} | head -1 | cut -c1-12; echo "\${PIPESTATUS[0]}"`, file);
    expect({ out, err }).toEqual({ out: `${form === "csv" ? "person,sessi" : '{"kind":"acq'}\n0\n`, err: "" });
  });
  it("passes its codes on: all, some, none", () => {
    expect(shell('$C "$1" --form csv > /dev/null', file)).toMatchObject({ code: 0, err: "" });
    const some = shell('$C "$1" absent.jsonl --form csv > /dev/null', file);
    expect(some.code).toBe(1);
    expect(some.err).toMatch(/^absent\.jsonl: cannot be read: .*\n$/);
    expect(shell("$C absent.jsonl", file).code).toBe(2);
    expect(shell("$C --colour", file)).toMatchObject({ code: 2, out: "" });
  });
  // Source: POSIX: a process may be told how large its files may grow; a write beyond it fails as on a full disk
  it.skipIf(process.platform === "win32").each(["text", "csv"])("leaves no half file of %s where there is too little room", (form) => {
    const { code, err } = shell(`ulimit -f 1; $C "$1" --form ${form} --out "$1.out"`, file);
    expect(code).toBe(2);
    expect(err).toMatch(/^aimed-movement: E[A-Z]+: .*\n$/);
    expect(readdirSync(folder)).toEqual(["ada.jsonl"]);
  });
  it("leaves what was there where there is too little room for what is new", () => {
    const kept = folderWith({ "ada.jsonl": text, "ada.jsonl.out": "old" });
    expect(shell('ulimit -f 1; $C "$1" --form csv --out "$1.out"', join(kept, "ada.jsonl")).code).toBe(2);
    expect(readFileSync(join(kept, "ada.jsonl.out"), "utf8")).toBe("old");
  });
});
