// The browser of this machine, where it has one.
import { existsSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";

const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
const ARGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"];

/** Why there is no browser to test with; `undefined` where there is one. */
export function noBrowser(): string | undefined {
  return existsSync(CHROMIUM) ? undefined : `no browser at ${CHROMIUM} (set CHROMIUM to one)`;
}

/** Ends the program well where there is no browser. */
export function skipWithoutBrowser(): void {
  const why = noBrowser();
  if (why === undefined) return;
  console.log(`skipped: ${why}`);
  process.exit(0);
}

export function launch(): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM, args: ARGS });
}
