// What the tarball holds, against what it may hold; its size; and that loading an entry does nothing else.
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { entryFolders } from "../../checks/public.js";
import { type Check, run, type Stranger } from "../stranger.js";

/** Unpacked; each a sixth above what it is, so that growth is noticed. */
const MOST_BYTES = 4_300_000;
const MOST_FILES = 265;

const ENTRY = ["index.js", "index.cjs", "index.d.ts", "index.d.cts"];
/** What every release has. */
const WANTED = ["package.json", "README.md", "LICENSE", "CHANGELOG.md", "dist/cli.js", "dist/cli/worker.js"];
/** Pieces that entries share, named by the build. No source, test, example, source map or second form of the command. */
const SHARED = /^dist\/(chunk-[A-Z0-9]{8}\.c?js|[a-z-]+-[\w-]{8}\.d\.c?ts)$/;

function filesOf({ plain }: Stranger): { name: string; path: string }[] {
  const root = join(plain, "node_modules", "aimed-movement");
  return readdirSync(root, { recursive: true, encoding: "utf8" })
    .map((name) => ({ name, path: join(root, name) }))
    .filter(({ path }) => statSync(path).isFile());
}

async function holdsWhatItShould(stranger: Stranger): Promise<void> {
  const files = filesOf(stranger);
  const entries = ["", ...entryFolders().map((folder) => `${folder}/`)].flatMap((folder) => ENTRY.map((file) => `dist/${folder}${file}`));
  const wanted = [...WANTED, ...entries];
  const names = files.map(({ name }) => name);
  const absent = wanted.filter((name) => !names.includes(name));
  const foreign = names.filter((name) => !wanted.includes(name) && !SHARED.test(name));
  const telling = files.filter(({ path }) => readFileSync(path, "utf8").includes(process.cwd())).map(({ name }) => name);
  const dangling = files.filter(({ path }) => readFileSync(path, "utf8").includes("//# sourceMappingURL")).map(({ name }) => name);
  for (const [what, list] of Object.entries({
    "is absent": absent,
    "has no business there": foreign,
    "names the folder it was built in": telling,
    "points to a map that is not there": dangling,
  })) {
    if (list.length > 0) throw new Error(`${list.join(", ")}: ${what}`);
  }
}

async function isSmall(stranger: Stranger): Promise<void> {
  const sizes = filesOf(stranger).map(({ path }) => statSync(path).size);
  const bytes = sizes.reduce((sum, size) => sum + size, 0);
  if (bytes > MOST_BYTES || sizes.length > MOST_FILES)
    throw new Error(`${bytes} bytes in ${sizes.length} files, allowed are ${MOST_BYTES} in ${MOST_FILES}`);
}

async function loadsQuietly({ full }: Stranger): Promise<void> {
  for (const path of ["", ...entryFolders().map((folder) => `/${folder}`)]) {
    const printed = await run(full, process.execPath, ["quiet.mjs", `aimed-movement${path}`]);
    if (printed !== "") throw new Error(`loading aimed-movement${path} prints ${printed}`);
  }
}

export const checks: readonly Check[] = [
  { name: "contents: every file wanted, none else", run: holdsWhatItShould },
  { name: `contents: at most ${MOST_BYTES / 1e6} MB in ${MOST_FILES} files`, run: isSmall },
  { name: "contents: loading an entry does nothing else", run: loadsQuietly },
];
