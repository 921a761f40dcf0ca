// One round of tapping on the live page, stopped after it, with what the page says of it.
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { launch } from "../browser/chromium.js";
import { pause } from "../browser/hand.js";
import { tapRounds } from "../browser/live-hand.js";
import { downloaded, openLivePage, press, serveSite, shownResults } from "../browser/live-site.js";

const TARGETS = 11;

export interface OwnRecording {
  /** The downloaded file. */
  readonly path: string;
  /** What the page says: how many acquisitions, and for each stretch of them its mean time in words. */
  readonly said: { readonly acquisitions: number; readonly times: readonly (readonly [stretch: string, mean: string])[] };
}

export async function recordOneRound(): Promise<OwnRecording> {
  const site = await serveSite();
  const browser = await launch();
  try {
    const { page, hand } = await openLivePage(browser, site.url);
    await press(page, "Start tapping");
    await pause(300);
    await tapRounds(page, hand, 1, TARGETS, (k) => [0.1 * ((k % 5) - 2), 0.05 * ((k % 3) - 1)]);
    await pause(500);
    await page.keyboard.press("Escape");
    await shownResults(page);
    const said = await page.evaluate(() => {
      const tables = [...document.querySelectorAll(".live-results table")];
      const cells = (words: string) =>
        [
          ...(tables.find((table) => table.querySelector("caption")!.textContent!.startsWith(words))?.querySelectorAll("tbody tr") ?? []),
        ].map((row) => [...row.children].map((cell) => cell.textContent ?? ""));
      const times = cells("Where the time").filter(([stretch]) => stretch !== "the whole");
      return { acquisitions: cells("Every acquisition").length, times: times.map(([stretch, mean]) => [stretch!, mean!] as const) };
    });
    const { name, text } = await downloaded(page);
    const path = join(mkdtempSync(join(tmpdir(), "download-")), name);
    writeFileSync(path, text);
    return { path, said };
  } finally {
    await browser.close();
    site.close();
  }
}
