// node:worker_threads: this file is the worker, and the thread that asks it.
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import { askLive, createAnswerer } from "./live.mjs";

if (isMainThread) {
  const worker = new Worker(new URL(import.meta.url));
  const post = (message, transferred) =>
    new Promise((done, failed) => {
      worker.once("message", done);
      worker.once("error", failed);
      worker.postMessage(message, transferred);
    });
  console.log(JSON.stringify(await askLive(post)));
  await worker.terminate();
} else {
  const answer = createAnswerer();
  parentPort.on("message", (message) => parentPort.postMessage(answer(message)));
}
