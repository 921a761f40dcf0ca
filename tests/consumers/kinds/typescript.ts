// TypeScript, strict, under each resolution that understands `exports`, as ES modules and as CommonJS, with no more of a library than an entry needs.
import { cpSync, mkdtempSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type Check, ownTool, run, type Stranger } from "../stranger.js";

const RESOLUTIONS = { node16: "node16", nodenext: "nodenext", bundler: "esnext" } as const;
type Resolution = keyof typeof RESOLUTIONS;
/** 4.7 is the first that understands `exports`, 5.0 the first that knows of bundlers; 5.4 is still common. */
const OLDER: readonly (readonly [version: string, ...resolutions: Resolution[]])[] = [
  ["4.7.4", "node16"],
  ["5.0.4", "bundler"],
  ["5.4.5", "node16", "bundler"],
];
const PROGRAMS = [
  ["types.mts", ["es2022"]],
  ["types-page.mts", ["es2022", "dom"]],
] as const;

/** Compiles every program both as a module and as CommonJS. */
async function compiles({ plain }: Stranger, tsc: string, resolution: Resolution): Promise<void> {
  for (const [program, lib] of PROGRAMS) {
    const common = program.replace(".mts", ".cts");
    cpSync(join(plain, program), join(plain, common));
    const compilerOptions = {
      ...{ noEmit: true, strict: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true, skipLibCheck: false },
      ...{ target: "es2022", lib, types: [], module: RESOLUTIONS[resolution], moduleResolution: resolution },
    };
    const project = join(mkdtempSync(join(plain, "typescript-")), "tsconfig.json");
    writeFileSync(project, JSON.stringify({ compilerOptions, files: [program, common].map((file) => join(plain, file)) }));
    await run(plain, process.execPath, [tsc, "-p", project]);
  }
}

export const checks: readonly Check[] = [
  ...(Object.keys(RESOLUTIONS) as Resolution[]).map((resolution) => ({
    name: `typescript: ${resolution} resolution`,
    run: (stranger: Stranger) => compiles(stranger, ownTool("tsc"), resolution),
  })),
  ...OLDER.map(([version, ...resolutions]) => ({
    name: `typescript ${version}: ${resolutions.join(" and ")} resolution`,
    run: async (stranger: Stranger) => {
      const tsc = join(await stranger.tool("typescript", version), "typescript", "bin", "tsc");
      for (const resolution of resolutions) await compiles(stranger, tsc, resolution);
    },
  })),
];
