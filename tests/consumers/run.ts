// `npm run consumers`: the packed package used as strangers would use it, installed from its tarball into empty folders; a line per check, ends
// with 1 when one fails.
//
// -- --only x   the checks whose name contains x
import { parseArgs } from "node:util";
import { checks as bundlers } from "./kinds/bundlers.js";
import { checks as command } from "./kinds/command.js";
import { checks as contents } from "./kinds/contents.js";
import { checks as node } from "./kinds/node.js";
import { checks as peers } from "./kinds/peers.js";
import { checks as runtimes } from "./kinds/runtimes.js";
import { checks as typescript } from "./kinds/typescript.js";
import { arrive, type Check, type Stranger } from "./stranger.js";

const { values: options } = parseArgs({ options: { only: { type: "string", default: "" } } });
const all = [...contents, ...peers, ...command, ...node, ...typescript, ...bundlers, ...runtimes];
const chosen = all.filter(({ name }) => name.includes(options.only));
if (chosen.length === 0) throw new RangeError(`--only ${options.only}: must be part of a name: ${all.map(({ name }) => name).join("; ")}`);

const stranger = await arrive();
const queue = [...chosen];
let failed = 0;
// programs of many kinds, most of them waiting for a start or a download: two at a time
await Promise.all([work(), work()]);
console.log(`consumers: ${chosen.length - failed} ok, ${failed} failed`);
process.exitCode = failed > 0 ? 1 : 0;

async function work(): Promise<void> {
  for (let check = queue.shift(); check; check = queue.shift()) {
    // looked at before it is counted: the other one may have failed meanwhile
    const ok = await holds(check, stranger);
    if (!ok) failed++;
  }
}

async function holds({ name, run }: Check, place: Stranger): Promise<boolean> {
  const started = performance.now();
  try {
    await run(place);
    console.log(`ok      ${name.padEnd(66)} ${((performance.now() - started) / 1000).toFixed(1)} s`);
    return true;
  } catch (error) {
    console.error(`FAILED  ${name}\n${briefly((error as Error).message)}`);
    return false;
  }
}

/** A program that fails may print a bundle's one long line, or thousands. */
function briefly(message: string): string {
  const lines = message.split("\n").map((line) => (line.length > 300 ? `${line.slice(0, 300)} …` : line));
  return [...lines.slice(0, 40), ...(lines.length > 40 ? [`… ${lines.length - 40} more lines`] : [])].join("\n");
}
