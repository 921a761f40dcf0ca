// Pictures of the guides, from Vega-Lite specifications: each module of docs/pictures exports `spec()`, computed with the built library on
// simulated data, and becomes an SVG of the same name beside it. Committed, so that a page shows them without a build.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import * as vega from "vega";
import { type Config, compile, type TopLevelSpec } from "vega-lite";

/** What each module of docs/pictures exports. */
export interface PictureModule {
  spec(): object;
}

const FOLDER = join(dirname(fileURLToPath(import.meta.url)), "pictures");
/** One look for all pictures: readable on a light and on a dark page, and without colour. */
const CONFIG: Config = {
  background: "white",
  padding: 12,
  font: "sans-serif",
  view: { stroke: null },
  axis: {
    gridColor: "#e4e7eb",
    domainColor: "#8a94a0",
    tickColor: "#8a94a0",
    labelColor: "#333b44",
    titleColor: "#333b44",
    titleFontWeight: "normal",
  },
  legend: { labelColor: "#333b44", titleColor: "#333b44", titleFontWeight: "normal" },
  title: { color: "#1d232a", fontSize: 14, anchor: "start" },
  range: { category: ["#0b6bcb", "#d1580b", "#3c7d3c", "#8a4bb3", "#6b7280", "#b02a4c"] },
  mark: { color: "#0b6bcb" },
  line: { strokeWidth: 2 },
  point: { filled: true, size: 30 },
};

/** Mean width of a character of a sans-serif font, in sizes of the font. Vega takes 0.8 where it has no canvas, which leaves a fifth of a picture empty. */
const CHARACTER = 0.56;
const BOLD_CHARACTER = 0.6;
interface Text {
  readonly fontSize?: number;
  readonly fontWeight?: string | number;
  readonly limit?: number;
}
// vega's types leave this one out
const { textMetrics } = vega as unknown as { textMetrics: { width: (item: Text, text: unknown) => number } };
textMetrics.width = ({ fontSize = 11, fontWeight, limit = 0 }, text) => {
  const bold = fontWeight === "bold" || Number(fontWeight) >= 600;
  const width = String(text ?? "").trim().length * fontSize * (bold ? BOLD_CHARACTER : CHARACTER);
  return limit > 0 ? Math.min(width, limit) : width;
};

/** The SVG text of a Vega-Lite specification; warnings of the compiler are errors. */
export async function renderSvg(spec: object): Promise<string> {
  const complaints: string[] = [];
  const complain = (...parts: readonly unknown[]) => {
    complaints.push(parts.join(" "));
    return logger;
  };
  const silent = () => logger;
  const logger = { level: silent, error: complain, warn: complain, info: silent, debug: silent };
  const { spec: compiled } = compile(spec as TopLevelSpec, { config: CONFIG, logger: logger as never });
  const view = new vega.View(vega.parse(compiled), { renderer: "none", logger: logger as never });
  const svg = await view.toSVG();
  view.finalize();
  if (complaints.length > 0) throw new Error(complaints.join("; "));
  if (/NaN|Infinity/.test(svg)) throw new Error("holds a coordinate that is not finite");
  return `${shorten(svg)}\n`;
}

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

/** Coordinates to a hundredth of a pixel: smaller files, and the same ones from every machine. */
function shorten(svg: string): string {
  return svg.replace(/ (d|transform|x|y|x1|x2|y1|y2|cx|cy|r|width|height)="([^"]*)"/g, (_, name: string, value: string) => {
    return ` ${name}="${value.replace(/-?\d+\.\d+(e-?\d+)?/g, (number) => String(Number(Number(number).toFixed(2)) + 0))}"`;
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of await renderPictures()) console.log(`drawn: docs/pictures/${name}.svg`);
}
