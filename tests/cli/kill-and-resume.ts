// Kills a run of the command again and again and goes on with it. By itself: npx tsx tests/cli/kill-and-resume.ts COMMAND FOLDER FORM KILLS SEED
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { argv } from "node:process";
import { fileURLToPath } from "node:url";
import { xorshift128plus } from "pure-rand/generator/xorshift128plus";

/** What came of it. */
export interface Survived {
  readonly whole: Buffer;
  readonly resumed: Buffer;
  /** Runs that were killed before their end. */
  readonly kills: number;
  /** Further runs whose end came before the kill; the one after begins anew. */
  readonly tooLate: number;
}

/** Runs the command whole, then kills it at random times, `kills` times in all, going on each time; the last run ends. */
export async function killAndResume(command: string, folder: string, form: string, kills: number, seed: number): Promise<Survived> {
  const home = mkdtempSync(join(tmpdir(), "aimed-movement-kill-"));
  const random = xorshift128plus(seed);
  const runOnce = (out: string, after?: number): Promise<{ seconds: number; code: number | null }> => {
    const begun = Date.now();
    const child = spawn(process.execPath, [command, folder, "--form", form, "--out", join(home, out), "--resume", "--quiet"], {
      stdio: "ignore",
    });
    const timer = after === undefined ? undefined : setTimeout(() => child.kill("SIGKILL"), after);
    return new Promise((done) =>
      child.on("close", (code) => {
        clearTimeout(timer);
        done({ seconds: (Date.now() - begun) / 1000, code });
      }),
    );
  };
  try {
    const { seconds } = await runOnce("whole");
    let killed = 0;
    let tooLate = 0;
    while (killed < kills) {
      const after = 1000 * seconds * (0.05 + (0.9 * (random.next() >>> 0)) / 2 ** 32);
      const { code } = await runOnce("resumed", after);
      if (code === null) killed++;
      else tooLate++;
    }
    await runOnce("resumed");
    return { whole: readFileSync(join(home, "whole")), resumed: readFileSync(join(home, "resumed")), kills: killed, tooLate };
  } finally {
    rmSync(home, { recursive: true });
  }
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const [command, folder, form, kills, seed] = argv.slice(2) as [string, string, string, string, string];
  const { whole, resumed, ...counts } = await killAndResume(command, folder, form, Number(kills), Number(seed));
  console.log(JSON.stringify({ form, bytes: whole.length, same: whole.equals(resumed), ...counts }));
  process.exitCode = whole.equals(resumed) ? 0 : 1;
}
