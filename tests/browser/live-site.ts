// The live page of the built site, opened as a visitor would, with what the browser itself says of it noted beside.
import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
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

/** Serves the built site; throws where there is none. */
export async function serveSite(): Promise<{ readonly url: string; readonly close: () => void }> {
  if (!existsSync(resolve(SITE, PAGE))) throw new Error("no live page in site: build it first (npm run docs)");
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
