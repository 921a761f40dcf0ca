// Without the optional packages: every entry but the one that needs mathjs.
import { type Check, run } from "../stranger.js";

export const checks: readonly Check[] = [
  { name: "peers: without mathjs all but one entry", run: ({ plain }) => run(plain, process.execPath, ["without-mathjs.mjs"]) },
];
