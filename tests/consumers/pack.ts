// The packed package, installed in a folder of its own as a stranger would.
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";

/** Installs packages in a folder. */
export function install(home: string, ...what: readonly string[]): void {
  const args = ["install", "--prefer-offline", "--no-audit", "--no-fund", ...what];
  execFileSync("npm", args, { cwd: home, encoding: "utf8", stdio: "pipe" });
}

/** Packs this package and installs the tarball, alone, in an empty folder. */
export function packInto(home: string): void {
  const said = execFileSync("npm", ["pack", "--json", "--pack-destination", home], { encoding: "utf8" });
  const packed = JSON.parse(said) as { readonly filename: string }[];
  writeFileSync(join(home, "package.json"), JSON.stringify({ name: "stranger", private: true }));
  install(home, `./${packed[0]!.filename}`);
}
