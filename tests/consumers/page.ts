// A folder of built files, opened in a real browser.
import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";
import { chromium } from "playwright-core";

const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
const TYPES: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript", ".mjs": "text/javascript" };
/** Longest that a page may take, ms. */
const PATIENCE = 60_000;

/** Opens `index.html` of a folder and gives what its script puts into `globalThis.said`; throws when it says an error, or the page has one. */
export async function saidByPage(folder: string): Promise<unknown> {
  if (!existsSync(CHROMIUM)) throw new Error(`no browser at ${CHROMIUM}: install Chromium, or set CHROMIUM to one`);
  const server = createServer(({ url = "/" }, response) => {
    const file = join(folder, url === "/" ? "index.html" : url);
    if (!existsSync(file)) return response.writeHead(404).end();
    return response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "text/plain" }).end(readFileSync(file));
  }).listen(0, "127.0.0.1");
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
  });
  try {
    const page = await browser.newPage();
    const broken = new Promise<never>((_, failed) => page.once("pageerror", failed));
    // a page also asks for its icon, which is not there
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    const handle = await Promise.race([page.waitForFunction("globalThis.said", undefined, { timeout: PATIENCE }), broken]);
    const said = (await handle.jsonValue()) as { error?: string };
    if (said.error !== undefined) throw new Error(said.error);
    return said;
  } finally {
    await browser.close();
    server.close();
  }
}
