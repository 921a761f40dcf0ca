#!/usr/bin/env node
import { main } from "./cli/main.js";
import { removeUnfinished } from "./cli/write-file.js";

// a reader that has seen enough closes the pipe: no error
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});
for (const [signal, code] of [
  ["SIGINT", 130],
  ["SIGTERM", 143],
] as const) {
  process.on(signal, () => {
    removeUnfinished();
    process.exit(code);
  });
}
void main(process.argv.slice(2), { stdin: process.stdin, stdout: process.stdout, stderr: process.stderr }).then((code) => {
  process.exitCode = code;
});
