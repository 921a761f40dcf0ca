// Drives the live page of the built site in a real browser: npx tsx tests/browser/live-page.ts
// Ends non-zero when a check fails; where there is no Chromium it says so and ends with 0. SHOTS=FOLDER keeps pictures of the page there.
import type { Browser } from "playwright-core";
import { parseRecording } from "../../src/trace/index.js";
import { buildIfStale } from "../checks/build.js";
import { checkByCommand, checkSeen, watchPointer } from "./check-download.js";
import { checkFollowing } from "./check-following.js";
import { checkTapping } from "./check-tapping.js";
import { check, tellChecks } from "./checks.js";
import { launch, skipWithoutBrowser } from "./chromium.js";
import { type Point, pause } from "./hand.js";
import { followTarget, tapRounds } from "./live-hand.js";
import { keyboard } from "./live-keyboard.js";
import { phone } from "./live-phone.js";
import { buildSiteIfStale, downloaded, openLivePage, press, serveSite, shownResults } from "./live-site.js";
import { shot } from "./shot.js";

const ROUNDS = 4;
const TARGETS = 11;
const DELAY = 200;

skipWithoutBrowser();
buildIfStale();
buildSiteIfStale();
/** Errors of the endpoints in target widths: scattered, every seventh a miss by plan. */
function errorOf(movement: number): Point {
  if (movement % 7 === 4) return [0.8, 0.1];
  // far enough inside the target: steps of the golden ratio fill the ranges evenly
  const spread = (k: number): number => 2 * ((k * 0.6180339887) % 1) - 1;
  return [0.28 * spread(movement + 1), 0.2 * spread(3 * movement + 2)];
}

async function visitor(browser: Browser, url: string): Promise<void> {
  const { page, hand, requests, faults } = await openLivePage(browser, url);
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
}

const site = await serveSite();
const browser = await launch();
try {
  console.log(`Chromium ${browser.version()}`);
  await visitor(browser, site.url);
  await keyboard(browser, site.url);
  await phone(browser, site.url, TARGETS);
} finally {
  await browser.close();
  site.close();
}
process.exit(tellChecks());
