// Drives the live page of the built site in a real browser: npx tsx tests/browser/live-page.ts
// Ends non-zero when a check fails; where there is no Chromium it says so and ends with 0. SHOTS=FOLDER keeps pictures of the page there.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { parseRecording } from "../../src/trace/index.js";
import { buildIfStale } from "../checks/build.js";
import { check, tellChecks } from "./checks.js";
import { launch, skipWithoutBrowser } from "./chromium.js";
import { type Point, pause } from "./hand.js";
import { checkByCommand, checkFollowing, checkSeen, checkTapping, watchPointer } from "./live-checks.js";
import { followTarget, tapRounds } from "./live-hand.js";
import { buildSiteIfStale, downloaded, openLivePage, press, serveSite, shownResults } from "./live-site.js";

const ROUNDS = 4;
const TARGETS = 11;
const DELAY = 200;

skipWithoutBrowser();
buildIfStale();
buildSiteIfStale();
const shots = process.env.SHOTS;
if (shots !== undefined) mkdirSync(shots, { recursive: true });
const shot = async (page: Page, name: string): Promise<void> => {
  if (shots !== undefined) await page.screenshot({ path: join(shots, `${name}.png`) });
};

/** Errors of the endpoints in target widths: scattered, every seventh a miss by plan. */
function errorOf(movement: number): Point {
  if (movement % 7 === 4) return [0.8, 0.1];
  // far enough inside the target: steps of the golden ratio fill the ranges evenly
  const spread = (k: number): number => 2 * ((k * 0.6180339887) % 1) - 1;
  return [0.28 * spread(movement + 1), 0.2 * spread(3 * movement + 2)];
}

async function visitor(browser: Browser, url: string): Promise<string> {
  const opened = await openLivePage(browser, url);
  const { page, hand, requests, faults } = opened;
  const loaded = (name: string): boolean => requests.some((address) => address.endsWith(name));
  check(
    "loading: neither the analysis nor the pictures are fetched before they are needed",
    !loaded("live-worker.js") && !loaded("live-charts.js"),
  );
  await watchPointer(page);
  await press(page, "Start tapping");
  await pause(300);
  const tapping = pause(5000).then(() => shot(page, "tapping"));
  const planned = await tapRounds(page, hand, ROUNDS, TARGETS, errorOf);
  await tapping;
  await shot(page, "tapping-done");
  const afterTapping = await shownResults(page);
  await shot(page, "results");
  const [live, final] = await page.evaluate(() =>
    [".live-field + .live-table tbody", ".live-results details tbody"].map((place) => document.querySelector(place)!.textContent),
  );
  check("live: the lines that came while tapping are those of the whole recording", live !== "" && live === final, [live, final]);
  await press(page, "Start following");
  await pause(300);
  const following = pause(6000).then(() => shot(page, "following"));
  await followTarget(page, hand, DELAY);
  await following;
  await page.waitForFunction(() => document.querySelector(".live-status")!.textContent!.includes("Lag"), undefined, { timeout: 30_000 });
  const shown = await shownResults(page);
  check(
    `results: ${afterTapping.tables.length} tables after tapping, ${shown.tables.length} after following, ${shown.pictures} pictures`,
    shown.pictures >= 3 && shown.tables.length === 6,
    shown,
  );
  const file = await downloaded(page);
  if (shots !== undefined) writeFileSync(join(shots, file.name), file.text);
  const { session } = parseRecording(file.text, { file: file.name });
  await checkSeen(page, file.text, session);
  checkTapping(session.recordings[0]!, planned, shown.tables);
  checkFollowing(session.recordings[1]!, DELAY);
  checkByCommand(file.path, session, shown.tables);
  await shot(page, "following-results");

  await page.setInputFiles("input[type=file]", { name: "again.jsonl", mimeType: "text/plain", buffer: Buffer.from(file.text) });
  await page.waitForFunction(() => document.querySelector(".live-results h3")!.textContent!.includes("again.jsonl"));
  const again = await shownResults(page);
  check("loading again: every table says the same", again.tables.join("\n") === shown.tables.join("\n"));
  const broken = file.text.replace('"kind":"press"', '"kind":"pressed"');
  await page.setInputFiles("input[type=file]", { name: "broken.jsonl", mimeType: "text/plain", buffer: Buffer.from(broken) });
  await page.waitForFunction(() => document.querySelector("[role=alert]")!.textContent !== "");
  const alert = await page.textContent("[role=alert]");
  check(`bad file: "${alert}"`, /broken\.jsonl:\d+:\d+: kind must be one of .*, got "pressed"/.test(alert ?? ""), alert);
  await shot(page, "bad-file");

  const strange = requests.filter((address) => !address.startsWith(url) && !/^(blob|data):/.test(address));
  check(`network: ${requests.length} requests, none beyond the site's own files`, strange.length === 0, strange);
  check("console: no error and no warning", faults.length === 0, faults);
  await page.context().close();
  return file.text;
}

async function keyboard(browser: Browser, url: string): Promise<void> {
  const { page, session, faults } = await openLivePage(browser, url, { colorScheme: "dark", reducedMotion: "reduce" });
  await page.locator("#live select").first().focus();
  const order: string[] = [];
  const focused = () => page.evaluate(() => (document.activeElement?.textContent ?? "").trim());
  for (let i = 0; i < 20 && order[order.length - 1] !== "Show a simulated recording"; i++) {
    await page.keyboard.press("Tab");
    order.push(await focused());
  }
  check(
    "keyboard: Tab leads through the settings to the buttons",
    order.includes("Start tapping") && order[order.length - 1] === "Show a simulated recording",
    order,
  );
  const ring = await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle);
  check("keyboard: the focus is to be seen", ring !== "none", ring);
  await page.keyboard.press("Enter");
  const { tables, pictures } = await shownResults(page);
  check(
    `keyboard: Enter shows the simulated recording, ${tables.length} tables, ${pictures} pictures`,
    tables.length === 6 && pictures === 4,
  );
  check("keyboard: the focus goes to the heading of the results", (await focused()) === "Recording from the simulation", await focused());
  await shot(page, "dark-results");
  await page.getByRole("button", { name: "Start tapping" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector(".live-field .live-next");
  await shot(page, "dark-tapping");
  const said = (): Promise<string | null> => page.textContent("[role=status]");
  check("keyboard: what to do is said, and how to stop", /press the filled circle.*Escape stops/i.test((await said()) ?? ""), await said());
  await page.keyboard.press("Escape");
  check("keyboard: Escape stops, and nothing is kept of nothing", /Stopped\. No round was begun/.test((await said()) ?? ""), await said());

  await page.getByRole("button", { name: "Start tapping" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector(".live-field .live-next");
  await page.setViewportSize({ width: 420, height: 900 });
  await pause(500);
  check("field: a window made smaller ends the block, and says so", /became smaller/.test((await said()) ?? ""), await said());

  const { result } = await session.send("Runtime.evaluate", { expression: "document.querySelector('#live')" });
  const { nodes } = await session.send("Accessibility.queryAXTree", { objectId: result.objectId! });
  const inside = await page.evaluate(() => document.querySelectorAll("#live :is(button, input, select)").length);
  const named = nodes.filter(
    ({ ignored, role }) => !ignored && ["button", "textbox", "combobox", "spinbutton", "region", "image"].includes(String(role?.value)),
  );
  const nameless = named.filter(({ name }) => !name?.value).map(({ role }) => role?.value);
  check(
    `accessibility: ${named.length} controls, regions and pictures (${inside} controls here), each with a name`,
    named.length >= inside && nameless.length === 0,
    nameless,
  );
  const roles = new Set(nodes.filter(({ ignored }) => !ignored).map(({ role }) => String(role?.value)));
  check("accessibility: a status and an alert are there to be announced", roles.has("status") && roles.has("alert"), [...roles]);
  const live = await page.evaluate(
    () => document.querySelectorAll(".live-field + .live-table [aria-live], .live-results [aria-live], .live-progress[aria-live]").length,
  );
  check("accessibility: acquisitions are not announced one by one", live === 0, live);
  check("keyboard: no error and no warning", faults.length === 0, faults);
  await page.context().close();
}

/** A phone: a narrow page, and a finger that leaves no path between its presses. */
async function phone(browser: Browser, url: string): Promise<void> {
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
  for (let k = 0; k <= TARGETS; k++) {
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
    counted === TARGETS && recording!.device === "touch" && recording!.presses.every(({ by }) => by === "touch"),
    recording!.device,
  );
  check("phone: no error and no warning", faults.length === 0, faults);
  await page.context().close();
}

const site = await serveSite();
const browser = await launch();
try {
  console.log(`Chromium ${browser.version()}`);
  await visitor(browser, site.url);
  await keyboard(browser, site.url);
  await phone(browser, site.url);
} finally {
  await browser.close();
  site.close();
}
process.exit(tellChecks());
