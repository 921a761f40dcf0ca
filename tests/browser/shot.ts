// Pictures of the page for people to look at, where SHOTS names a folder for them.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";

const folder = process.env.SHOTS;

export async function shot(page: Page, name: string): Promise<void> {
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}
