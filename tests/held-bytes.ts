// What a process holds, so that growth can be told from what waits to be collected.
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

/** Bytes of heap and of columns outside it, after a collection; freed columns may be given back a little later. */
export async function heldBytes(): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 3; k++) {
    collect();
    await new Promise((done) => setTimeout(done, 20));
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    least = Math.min(least, heapUsed + arrayBuffers);
  }
  return least;
}
