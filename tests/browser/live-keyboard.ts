// The live page without a pointer: by keys, and as it tells of itself to those who do not see it.
import type { Browser } from "playwright-core";
import { check } from "./checks.js";
import { pause } from "./hand.js";
import { openLivePage, shownResults } from "./live-site.js";
import { shot } from "./shot.js";

export async function keyboard(browser: Browser, url: string): Promise<void> {
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

  await page.setViewportSize({ width: 1280, height: 900 });
  await page.getByRole("button", { name: "Start following" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector(".live-field .live-next");
  // the driver keeps its pages in sight: the page is told so, as a browser would tell it
  await page.evaluate(() => {
    Object.defineProperty(document, "hidden", { value: true, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  });
  check("field: a page that is hidden ends the block, and says so", /page was hidden/.test((await said()) ?? ""), await said());

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
