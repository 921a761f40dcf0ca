// The live page on a phone, with a finger.
import type { Browser } from "playwright-core";
import { parseRecording } from "../../src/trace/index.js";
import { check } from "./checks.js";
import { pause } from "./hand.js";
import { downloaded, openLivePage, press, shownResults } from "./live-site.js";
import { shot } from "./shot.js";

/** A phone: a narrow page, and a finger that leaves no path between its presses. */
export async function phone(browser: Browser, url: string, targets: number): Promise<void> {
  const { page, session, faults } = await openLivePage(browser, url, {
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    deviceScaleFactor: 2,
  });
  const width = (): Promise<number> => page.evaluate(() => document.documentElement.scrollWidth);
  check("phone: 390 px hold the page", (await width()) <= 390, await width());
  await press(page, "Start tapping");
  await page.waitForSelector(".live-field .live-next");
  await page.locator(".live-field").scrollIntoViewIfNeeded();
  await shot(page, "phone-tapping");
  const touch = async (type: "touchStart" | "touchEnd", x?: number, y?: number): Promise<void> => {
    await session.send("Input.dispatchTouchEvent", { type, touchPoints: x === undefined ? [] : [{ x, y: y! }] });
  };
  for (let k = 0; k <= targets; k++) {
    const place = await page.evaluate(() => {
      const { left, top, width, height } = document.querySelector(".live-field .live-next")!.getBoundingClientRect();
      return { x: left + width / 2, y: top + height / 2 };
    });
    await touch("touchStart", place.x, place.y);
    await pause(60);
    await touch("touchEnd");
    await pause(300);
  }
  await press(page, "Stop (Escape)");
  await shownResults(page);
  check("phone: 390 px hold the results", (await width()) <= 390, await width());
  await shot(page, "phone-results");
  const { session: recorded } = parseRecording((await downloaded(page)).text);
  const [recording] = recorded.recordings;
  const counted = recording!.presses.filter(({ credited }) => typeof credited === "string").length;
  check(
    `phone: a finger's ${counted} presses count, as touches`,
    counted === targets && recording!.device === "touch" && recording!.presses.every(({ by }) => by === "touch"),
    recording!.device,
  );
  check("phone: no error and no warning", faults.length === 0, faults);
  await page.context().close();
}
