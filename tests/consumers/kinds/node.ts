// Node: the entries by both ways, and what they must not do. Newer versions come from the registry, in folders of their own: beside other packages
// their `node` would take the place of the one that runs.
import { dirname, join } from "node:path";
import { requireSame, said } from "../results.js";
import { type Check, run, type Stranger } from "../stranger.js";
import { commandWorks } from "./command.js";

const NEWER = ["22.23.3", "24.21.0", "26.10.0"];

/** The entries as modules and as CommonJS, and the analyzer on a worker thread. */
const works = async (stranger: Stranger, node: string): Promise<void> => {
  for (const program of ["say-imported.mjs", "say-required.cjs"]) await requireSame(stranger, await said(stranger.full, node, [program]));
  await run(stranger.full, node, ["thread.mjs"]);
};

export const checks: readonly Check[] = [
  { name: "node: imported and required, in the main thread and a worker", run: (stranger) => works(stranger, process.execPath) },
  { name: "node: inner files are refused", run: ({ plain }) => run(plain, process.execPath, ["refused.mjs"]) },
  ...NEWER.map((version) => ({
    name: `node ${version}: the same, and the command`,
    run: async (stranger: Stranger) => {
      const node = join(await stranger.tool("node", version), "node", "bin", "node");
      const runs = (await run(stranger.full, node, ["--version"])).trim();
      if (runs !== `v${version}`) throw new Error(`${node} is ${runs}`);
      await works(stranger, node);
      await commandWorks(stranger.full, { PATH: `${dirname(node)}:${process.env.PATH}` });
    },
  })),
];
