// The folders of a stranger: the packed package alone, the package with what it can use, and one for each tool that somebody may use it with.
import { execFile, execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { promisify } from "node:util";
import { buildIfStale } from "../checks/build.js";

/** A consumer of one kind: a name, and what must not throw. */
export interface Check {
  readonly name: string;
  readonly run: (stranger: Stranger) => Promise<unknown>;
}

export interface Stranger {
  /** A folder with the installed package and the programs, nothing else. */
  readonly plain: string;
  /** The same with the optional peers beside it. */
  readonly full: string;
  /** A new, empty folder. */
  folder(): string;
  /** Installs a tool of this exact version in a folder of its own, once; gives its `node_modules`. */
  tool(name: string, version: string): Promise<string>;
  /** What `make` gave when this name was first asked for. */
  once<T>(name: string, make: () => Promise<T>): Promise<T>;
}

const PROGRAMS = join("tests", "consumers", "programs");
const { devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as { devDependencies: Record<string, string> };
/** The optional peers, in the versions that the project is tested with. */
const PEERS = ["mathjs", "vega", "vega-lite"].map((name) => `${name}@${devDependencies[name]}`);

/** Packs the package and installs it, in folders that go with this process. */
export async function arrive(): Promise<Stranger> {
  buildIfStale();
  const home = mkdtempSync(join(tmpdir(), "consumers-"));
  process.once("exit", () => rmSync(home, { recursive: true, force: true }));
  const [packed] = JSON.parse(execFileSync("npm", ["pack", "--json", "--pack-destination", home], { encoding: "utf8" })) as [
    { filename: string },
  ];
  const tarball = join(home, packed.filename);
  const made = new Map<string, Promise<unknown>>();
  const once = <T>(name: string, make: () => Promise<T>): Promise<T> => {
    if (!made.has(name)) made.set(name, make());
    return made.get(name) as Promise<T>;
  };
  const folder = (name: string): string => {
    mkdirSync(join(home, name));
    return join(home, name);
  };
  const settle = async (name: string, ...what: string[]): Promise<string> => {
    const place = folder(name);
    await install(place, ...what);
    if (what.includes(tarball)) cpSync(PROGRAMS, place, { recursive: true });
    return place;
  };
  const [plain, full] = await Promise.all([settle("plain", tarball), settle("full", tarball, ...PEERS)]);
  let folders = 0;
  return {
    plain,
    full,
    folder: () => folder(`work-${folders++}`),
    tool: (name, version) =>
      once(`${name}@${version}`, async () => join(await settle(`${name}@${version}`, `${name}@${version}`), "node_modules")),
    once,
  };
}

async function install(cwd: string, ...what: string[]): Promise<void> {
  writeFileSync(join(cwd, "package.json"), JSON.stringify({ name: "stranger", private: true }));
  const quiet = ["--prefer-offline", "--no-audit", "--no-fund", "--fetch-retries=1"];
  try {
    await run(cwd, "npm", ["install", ...quiet, ...what]);
  } catch (error) {
    throw new Error(`npm could not install ${what.join(", ")}; does its registry answer?\n${(error as Error).message}`);
  }
}

/** Runs a program in a folder and gives what it printed; throws with what it said when it fails. */
export async function run(
  cwd: string,
  program: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<string> {
  try {
    const { stdout } = await promisify(execFile)(program, args, {
      cwd,
      env: { ...process.env, NO_COLOR: "1", ...env },
      maxBuffer: 1 << 26,
    });
    return stdout;
  } catch (error) {
    const { stdout = "", stderr = "", message } = error as Error & { stdout?: string; stderr?: string };
    throw new Error([`${program} ${args.join(" ")}`, stdout, stderr || message].join("\n").trim());
  }
}

/** A tool that the project itself uses. */
export const ownTool = (name: string): string => resolve("node_modules", ".bin", name);
