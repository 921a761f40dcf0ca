#!/usr/bin/env node
import { stopAll } from "./cli/at-stop.js";
import { main } from "./cli/main.js";

const FAILED = 1;

// a reader that has seen enough closes the pipe: no error
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  stopAll();
  if (error.code === "EPIPE") process.exit(0);
  process.stderr.write(`aimed-movement: standard output cannot be written: ${error.message}\n`, () => process.exit(FAILED));
});
// nobody listens any more: what waits until it has been heard goes on, and so does what is written to files
process.stderr.on("error", () => process.stderr.emit("drain"));
for (const [signal, code] of [
  ["SIGHUP", 129],
  ["SIGINT", 130],
  ["SIGTERM", 143],
] as const) {
  process.on(signal, () => {
    for (const words of stopAll()) process.stderr.write(`${words}\n`);
    process.exit(code);
  });
}
void main(
  process.argv.slice(2),
  { stdin: process.stdin, stdout: process.stdout, stderr: process.stderr },
  { worker: new URL("./cli/worker.js", import.meta.url) },
).then((code) => {
  process.exitCode = code;
});
