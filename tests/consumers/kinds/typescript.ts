// TypeScript, strict, under each resolution that understands `exports`, as ES modules and as CommonJS, with no more of a library than an entry needs.
import { cpSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type Check, ownTool, run, type Stranger } from "../stranger.js";

/** The oldest that reads the declarations, found by going down the versions; and one that is still common. */
const OLDER = ["5.4.5"];
const RESOLUTIONS = [
  ["node16", "node16"],
  ["nodenext", "nodenext"],
  ["esnext", "bundler"],
] as const;
const PROGRAMS = [
  ["types.mts", ["es2022"]],
  ["types-page.mts", ["es2022", "dom"]],
] as const;

/** Compiles every program both as a module and as CommonJS. */
async function compiles({ plain }: Stranger, tsc: string, module: string, resolution: string): Promise<void> {
  for (const [program, lib] of PROGRAMS) {
    const common = program.replace(".mts", ".cts");
    cpSync(join(plain, program), join(plain, common));
    const compilerOptions = {
      ...{ noEmit: true, strict: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true, skipLibCheck: false },
      ...{ target: "es2022", lib, types: [], module, moduleResolution: resolution },
    };
    const project = join(plain, `tsconfig-${resolution}-${program}.json`);
    writeFileSync(project, JSON.stringify({ compilerOptions, files: [program, common] }));
    await run(plain, process.execPath, [tsc, "-p", project]);
  }
}

export const checks: readonly Check[] = [
  ...RESOLUTIONS.map(([module, resolution]) => ({
    name: `typescript: ${resolution} resolution`,
    run: (stranger: Stranger) => compiles(stranger, ownTool("tsc"), module, resolution),
  })),
  ...OLDER.map((version) => ({
    name: `typescript ${version}: every resolution`,
    run: async (stranger: Stranger) => {
      const tsc = join(await stranger.tool("typescript", version), "typescript", "bin", "tsc");
      for (const [module, resolution] of RESOLUTIONS) await compiles(stranger, tsc, module, resolution);
    },
  })),
];
