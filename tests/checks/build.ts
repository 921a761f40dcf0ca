// The built package, for the scripts that need it: built first when it is absent or older than its source.
import { execFileSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import { entryFolders, filesBelow } from "./public.js";

/** Builds `dist`, code and declarations, unless it is there and newer than every source file. */
export function buildIfStale(): void {
  const built = ["index", ...entryFolders().map((folder) => `${folder}/index`)].flatMap((name) => [`${name}.js`, `${name}.d.ts`]);
  const newest = Math.max(...[...filesBelow("src", ".ts"), "tsup.config.ts", "package.json"].map((file) => statSync(file).mtimeMs));
  const fresh = (file: string) => existsSync(file) && statSync(file).mtimeMs >= newest;
  if (!built.every((file) => fresh(join("dist", file)))) execFileSync("npx", ["tsup", "--silent"], { stdio: "inherit" });
}
