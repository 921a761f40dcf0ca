// Reads the built site in a real browser: npx tsx tests/browser/site.ts
// Ends non-zero when a check fails; where there is no Chromium it says so and ends with 0.
import { existsSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { lookAtPage } from "./look.js";
import { serve } from "./serve.js";

const SITE = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "site");
const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
const PHONE = { width: 390, height: 844 };
/** A figure, a function, an interface, a type, a module, and the lists of all of them; every page of docs is looked at besides. */
const KINDS = ["index.html", "modules.html", "modules/learning.html", "functions/learning.detectPlateau.html", "hierarchy.html"];
/** From WCAG 2.2, success criterion 1.4.3. Source: W3C, from memory. */
const CONTRAST = 4.5;

/** What somebody types, and the page that must be among the first three. */
const QUERIES: readonly (readonly [query: string, title: string])[] = [
  ["overshoot", "Where endpoints land: bias and spread"],
  ["flick", "Submovements"],
  ["micro-correction", "Corrections"],
  ["over-correcting", "Corrections"],
  ["lag", "Following a moving target"],
  ["tracking", "Following a moving target"],
  ["tremor", "Tremor in holds"],
  ["plateau", "Plateau"],
  ["being stuck", "Plateau"],
  ["warm-up", "Sessions and nights"],
  ["reaction time", "Acquisitions and their time budget"],
  ["switching targets", "Targets in sequence"],
  ["downtime", "Targets in sequence"],
  ["target order", "Shortest tour"],
  ["click timing", "Stop and press"],
  ["chasing the last miss", "Trial-to-trial learning"],
  ["fidgeting", "Idle movement"],
  ["smoothness", "Spectral arc length"],
  ["CEP", "Circular error probable"],
  ["throughput", "Throughput"],
  ["Fitts", "Speed and accuracy: Fitts' law and throughput"],
  ["rushing", "Slow down or speed up?"],
  ["adaptive difficulty", "Difficulty that follows the person"],
  ["weak point", "What holds this person back?"],
  ["training volume", "A day of practice"],
  ["sensitivity", "From the hand to the pointer"],
  ["input lag", "From hand to eye: the delay"],
  ["micro-stutter", "How evenly a display shows"],
  ["polling", "What a recording can carry"],
  ["detectPlateau", "learning.detectPlateau"],
];

if (!existsSync(CHROMIUM)) {
  console.log(`skipped: no browser at ${CHROMIUM} (set CHROMIUM to one)`);
  process.exit(0);
}
if (!existsSync(join(SITE, "index.html"))) {
  console.error(`no site at ${SITE}: build it first (npm run docs)`);
  process.exit(1);
}

let failures = 0;
let checks = 0;
const { url: address, close } = await serve(SITE);
const browser = await chromium.launch({
  executablePath: CHROMIUM,
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});
try {
  await everyPage(await browser.newContext({ viewport: PHONE }));
  await search(await (await browser.newContext()).newPage());
} finally {
  await browser.close();
  close();
}
console.log(`site: ${checks} checks, ${failures} failed`);
process.exitCode = failures > 0 ? 1 : 0;

function check(name: string, faults: readonly string[]): void {
  checks++;
  if (faults.length === 0) return;
  failures++;
  console.log(`SHORT ${name}: ${faults.slice(0, 5).join("; ")}${faults.length > 5 ? `; and ${faults.length - 5} more` : ""}`);
}

async function everyPage(context: BrowserContext): Promise<void> {
  const one = (folder: string) => `${folder}/${readdirSync(join(SITE, folder)).sort()[0]}`;
  const documents = readdirSync(join(SITE, "documents")).map((file) => `documents/${file}`);
  for (const path of [...KINDS, one("interfaces"), one("types"), ...documents]) {
    const page = await context.newPage();
    const said: string[] = [];
    page.on("console", (message) => message.type() === "error" && said.push(message.text()));
    page.on("pageerror", (error) => said.push(error.message));
    page.on("request", (request) => {
      if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(address)) said.push(`asks ${request.url()}`);
    });
    page.on("response", (response) => response.status() >= 400 && said.push(`${response.status()} ${response.url()}`));
    await page.goto(`${address}${encodeURI(path)}`, { waitUntil: "load" });
    await page.waitForFunction(() => document.querySelector("#tsd-nav-container a") !== null);
    const light = await lookAtPage(page, CONTRAST);
    await page.emulateMedia({ colorScheme: "dark" });
    const dark = await lookAtPage(page, CONTRAST);
    check(`${path}: errors and requests`, said);
    for (const [what, found] of Object.entries(light)) check(`${path}: ${what}`, found);
    check(`${path}: contrast in the dark`, dark.contrast);
    await page.close();
  }
}

async function search(page: Page): Promise<void> {
  await page.goto(`${address}index.html`);
  await page.waitForFunction(() => document.querySelector("#tsd-search-status")?.textContent === "");
  for (const [query, wanted] of QUERIES) {
    const found = await ask(page, query);
    const titles = found.slice(0, 3).map((title) => title.replace(/\s+/g, ""));
    check(`search "${query}"`, titles.includes(wanted.replace(/\s+/g, "")) ? [] : [`found ${found.slice(0, 5).join(", ") || "nothing"}`]);
    await page.keyboard.press("Escape");
    await page.waitForSelector("#tsd-search", { state: "hidden" });
  }
  await ask(page, "tremor");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await page.waitForURL("**/documents/Tremor_in_holds.html", { timeout: 5000 }).catch(() => undefined);
  check("search by the keyboard alone", page.url().endsWith("Tremor_in_holds.html") ? [] : [`leads to ${page.url()}`]);
}

/** Opens the search, types, and gives the titles found; none when nothing changes within five seconds. */
async function ask(page: Page, query: string): Promise<string[]> {
  const results = page.locator("#tsd-search-results");
  await page.keyboard.press("/");
  await page.waitForSelector("#tsd-search-input", { state: "visible" });
  const before = await results.innerHTML();
  await page.keyboard.press("Control+A");
  await page.keyboard.insertText(query);
  // the list comes a fifth of a second after the last key
  const changed = page.waitForFunction((old) => document.querySelector("#tsd-search-results")?.innerHTML !== old, before, {
    timeout: 5000,
  });
  const came = await changed.then(
    () => true,
    () => false,
  );
  return came ? results.locator(".text").allTextContents() : [];
}
