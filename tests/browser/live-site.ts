// The live page of the built site, opened as a visitor would, with what the browser itself says of it noted beside.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { filesBelow } from "../checks/public.js";
import { type Hand, hand } from "./hand.js";
import { serve } from "./serve.js";

const SITE = resolve("site");
/** typedoc names a page after its heading. */
const PAGE = "documents/Try_it_on_yourself.html";

export interface OpenedPage {
  readonly page: Page;
  readonly hand: Hand;
  /** Addresses that were asked for, and what went wrong. */
  readonly requests: readonly string[];
  readonly faults: readonly string[];
  readonly session: Awaited<ReturnType<ReturnType<Page["context"]>["newCDPSession"]>>;
}

/** Builds the site unless it is there and newer than what the live page is made of. */
export function buildSiteIfStale(): void {
  const built = join(SITE, "assets", "live", "live.js");
  const sources = [...filesBelow(join("docs", "live"), ""), ...filesBelow("src", ".ts"), join("docs", "live-page.md")];
  const newest = Math.max(...sources.map((file) => statSync(file).mtimeMs));
  if (existsSync(built) && statSync(built).mtimeMs >= newest) return;
  console.log("building the site, which is absent or older than its source");
  execFileSync("npm", ["run", "--silent", "docs"], { stdio: "inherit" });
}

/** Serves the built site. */
export function serveSite(): ReturnType<typeof serve> {
  return serve(SITE);
}

export async function openLivePage(browser: Browser, url: string, options: BrowserContextOptions = {}): Promise<OpenedPage> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, acceptDownloads: true, ...options });
  const page = await context.newPage();
  const requests: string[] = [];
  const faults: string[] = [];
  page.on("request", (request) => requests.push(request.url()));
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => ["error", "warning"].includes(message.type()) && faults.push(message.text()));
  await page.goto(url + PAGE, { waitUntil: "load" });
  // the runner of these scripts wraps functions in a call of this name, also those it sends to the page
  await page.evaluate("globalThis.__name = (wrapped) => wrapped");
  const session = await context.newCDPSession(page);
  return { page, hand: hand(session), session, requests, faults };
}

export const press = (page: Page, name: string): Promise<void> => page.getByRole("button", { name }).click();

/** Waits until results are shown with their pictures, and gives the text of every table and the picture count. */
export async function shownResults(page: Page): Promise<{ readonly tables: readonly string[]; readonly pictures: number }> {
  await page.waitForSelector(".live-results .live-pictures img", { timeout: 60_000 });
  return page.evaluate(() => ({
    tables: [...document.querySelectorAll(".live-results table")].map((table) => table.textContent ?? ""),
    pictures: document.querySelectorAll(".live-results img").length,
  }));
}

/** The recording as the page hands it out. */
export async function downloaded(page: Page): Promise<{ readonly name: string; readonly text: string; readonly path: string }> {
  const waiting = page.waitForEvent("download");
  await press(page, "Download the recording");
  const file = await waiting;
  const path = await file.path();
  return { name: file.suggestedFilename(), text: readFileSync(path, "utf8"), path };
}
