// The worker of the lab display: an analyzer for each person. Every message is answered, also one that brings no row: the answer lets the next one go.
import { parentPort, workerData } from "node:worker_threads";
import { createAnalyzer } from "aimed-movement/movement";

/** Milliseconds that every message costs on top, to see what a slow machine would do. */
const { slowness } = workerData;
const analyzers = new Map();

parentPort.on("message", ({ kind, person, space, chunk }) => {
  if (slowness > 0) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, slowness);
  try {
    parentPort.postMessage({ kind, person, ...answer(kind, person, space, chunk) });
  } catch (error) {
    parentPort.postMessage({ kind: "refused", person, why: error.message });
  }
});

function answer(kind, person, space, chunk) {
  switch (kind) {
    case "begin":
      analyzers.set(person, createAnalyzer(space));
      return {};
    case "chunk":
      return { rows: analyzers.get(person).push(chunk), samples: chunk.trace.t.length };
    case "end": {
      const rows = analyzers.get(person).flush();
      analyzers.delete(person);
      return { rows };
    }
  }
}
