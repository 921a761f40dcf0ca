// Pictures of the guides, from Vega-Lite specifications: each module of docs/pictures exports `spec()`, computed with the built library on
// simulated data, and becomes an SVG of the same name beside it. Committed, so that a page shows them without a build.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { renderSvg } from "../examples/notebooks/show.js";

/** What each module of docs/pictures exports. */
export interface PictureModule {
  spec(): object;
}

const FOLDER = join(dirname(fileURLToPath(import.meta.url)), "pictures");

/** Renders every picture and gives the names of those that changed; throws when a module and its picture do not belong together. */
export async function renderPictures(): Promise<string[]> {
  if (!existsSync(FOLDER)) return [];
  const files = readdirSync(FOLDER).sort();
  const changed: string[] = [];
  for (const file of files) {
    const name = file.replace(/\.(ts|svg)$/, "");
    if (file === `${name}.svg` && !files.includes(`${name}.ts`)) throw new Error(`docs/pictures/${file}: has no module that draws it`);
    if (file !== `${name}.ts`) continue;
    const { spec } = (await import(pathToFileURL(join(FOLDER, file)).href)) as Partial<PictureModule>;
    if (typeof spec !== "function") throw new Error(`docs/pictures/${file}: exports no function \`spec\``);
    const path = join(FOLDER, `${name}.svg`);
    const svg = await renderSvg(spec()).catch((error: Error) => Promise.reject(new Error(`docs/pictures/${file}: ${error.message}`)));
    if (existsSync(path) && readFileSync(path, "utf8") === svg) continue;
    writeFileSync(path, svg);
    changed.push(name);
  }
  return changed;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of await renderPictures()) console.log(`drawn: docs/pictures/${name}.svg`);
}
