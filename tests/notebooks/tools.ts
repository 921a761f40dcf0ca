// What executes a notebook: Deno as the kernel, from npm, and Jupyter's nbconvert, which Debian packages. Both are got when absent, Deno into a folder
// of its own below node_modules, so that nothing of the machine's own Jupyter is changed.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";

/** The version that the stored outputs come from; another may format values in another way. */
const DENO = "2.9.6";
const HOME = resolve("node_modules", ".cache", "notebooks");

/** The environment in which `jupyter nbconvert --execute` finds the kernel; throws with what to do when it cannot be made. */
export function prepareTools(): NodeJS.ProcessEnv {
  needNbconvert();
  const deno = needDeno();
  const kernel = join(HOME, "jupyter", "kernels", "deno");
  mkdirSync(kernel, { recursive: true });
  const argv = [deno, "jupyter", "--kernel", "--conn", "{connection_file}"];
  writeFileSync(join(kernel, "kernel.json"), JSON.stringify({ argv, display_name: "Deno", language: "typescript" }));
  return {
    ...process.env,
    JUPYTER_PATH: join(HOME, "jupyter"),
    JUPYTER_CONFIG_DIR: join(HOME, "config"),
    JUPYTER_RUNTIME_DIR: join(HOME, "runtime"),
    DENO_DIR: join(HOME, "deno-cache"),
    DENO_NO_UPDATE_CHECK: "1",
    NO_COLOR: "1",
    TZ: "UTC",
  };
}

function needDeno(): string {
  const own = join(HOME, "node_modules", ".bin", "deno");
  const version = (program: string) => /^deno (\S+)/.exec(spawnSync(program, ["--version"], { encoding: "utf8" }).stdout ?? "")?.[1];
  const found = [own, "deno"].find((program) => version(program) === DENO);
  if (found) return found;
  mkdirSync(HOME, { recursive: true });
  if (!existsSync(join(HOME, "package.json"))) writeFileSync(join(HOME, "package.json"), JSON.stringify({ private: true }));
  attempt(`Deno ${DENO} could not be installed from npm`, "npm", ["install", "--prefix", HOME, "--no-audit", "--no-fund", `deno@${DENO}`]);
  if (version(own) !== DENO)
    throw new Error(`notebooks: Deno ${DENO} was installed but does not start; is there a build of it for this machine?`);
  return own;
}

function needNbconvert(): void {
  const works = () => spawnSync("jupyter", ["nbconvert", "--version"]).status === 0;
  if (works()) return;
  if (process.getuid?.() !== 0 || spawnSync("apt-get", ["--version"]).status !== 0) {
    throw new Error("notebooks: Jupyter's nbconvert is absent; install it (Debian: apt-get install jupyter-nbconvert) and run this again");
  }
  const what = "jupyter-nbconvert could not be installed with apt-get";
  attempt(what, "apt-get", ["update"]);
  attempt(what, "apt-get", ["install", "-y", "--no-install-recommends", "jupyter-nbconvert"]);
  if (!works()) throw new Error("notebooks: jupyter-nbconvert was installed but `jupyter nbconvert` does not start");
}

function attempt(failure: string, program: string, args: readonly string[]): void {
  try {
    execFileSync(program, args, { stdio: "pipe", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
  } catch (error) {
    const { stderr } = error as { stderr?: Buffer };
    throw new Error(`notebooks: ${failure}: ${stderr?.toString().trim().split("\n").at(-1) ?? (error as Error).message}`);
  }
}
