// A page: every entry called, and a module worker asked; what it has to say stands in `globalThis.said` in the end.
import { entries } from "./entries.mjs";
import { askLive } from "./live.mjs";
import { resultsOf } from "./results.mjs";

const worker = new Worker(new URL("./web-worker.mjs", import.meta.url), { type: "module" });
const post = (message, transferred) =>
  new Promise((done, failed) => {
    worker.onmessage = ({ data }) => done(data);
    worker.onerror = failed;
    worker.postMessage(message, transferred);
  });
askLive(post).then(
  (rows) => {
    globalThis.said = { ...resultsOf(entries, document.body), rows };
  },
  (error) => {
    globalThis.said = { error: `${error?.message ?? error}` };
  },
);
