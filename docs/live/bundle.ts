// The scripts and the style of the live page, into the site. Plain scripts: those of the module kind do not run on a page opened as a file.
import { cpSync, mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";

const HERE = dirname(fileURLToPath(import.meta.url));

/** Writes the live page's files into a folder and gives a line on the size of each. */
export async function bundleLivePage(folder: string): Promise<string[]> {
  mkdirSync(folder, { recursive: true });
  cpSync(join(HERE, "live.css"), join(folder, "live.css"));
  const scripts = [
    ["live.js", await script("page.ts")],
    // as a text: the page makes its worker of it
    ["live-worker.js", `globalThis.aimedMovementWorker = ${JSON.stringify(await script("worker.ts"))};\n`],
    ["live-charts.js", await script("charts.ts")],
  ] as const;
  return scripts.map(([name, text]) => {
    writeFileSync(join(folder, name), text);
    return `${name}: ${kilobytes(Buffer.byteLength(text))} kB, ${kilobytes(gzipSync(text, { level: 9 }).length)} compressed`;
  });
}

async function script(entry: string): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [join(HERE, entry)],
    bundle: true,
    minify: true,
    format: "iife",
    platform: "browser",
    target: "es2022",
    write: false,
    logLevel: "error",
  });
  return outputFiles[0]!.text;
}

function kilobytes(bytes: number): string {
  return (bytes / 1000).toFixed(1);
}
