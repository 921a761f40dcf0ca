// What the notebooks need to show results: charts, tables and numbers with their intervals. Vega and Vega-Lite are optional peers of the package;
// here they draw the picture that a viewer without Vega-Lite shows.
import * as vega from "vega";
import { type Config, compile, type TopLevelSpec } from "vega-lite";

/** A number as the library gives it; the shape of its `Estimate`. */
type Told =
  | { readonly ok: true; readonly value: number; readonly unit: string; readonly n: number; readonly interval?: readonly [number, number] }
  | { readonly ok: false; readonly why: string };

/** What the Deno kernel offers its cells. */
declare const Deno: { jupyter: { display(forms: Readonly<Record<string, unknown>>, options: { raw: true }): Promise<void> } };

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

/** Shows a Vega-Lite specification: itself for viewers that draw it, an SVG picture for the others. */
export async function chart(spec: object): Promise<void> {
  await show({
    // viewers that know Vega-Lite 5 draw these charts too; few know a later name
    "application/vnd.vegalite.v5+json": { ...spec, config: { ...CONFIG, ...(spec as { config?: object }).config } },
    "image/svg+xml": await renderSvg(structuredClone(spec)), // Vega marks the data it is given
    "text/plain": `Chart: ${(spec as { description?: string }).description ?? "see its specification"}`,
  });
}

/** Shows rows of one shape as a table; numbers are written as they are, so round them before. */
export function table(rows: readonly Readonly<Record<string, string | number>>[]): Promise<void> {
  const names = Object.keys(rows[0] ?? {});
  const numeric = names.map((name) => rows.every((row) => typeof row[name] === "number"));
  const line = (cells: readonly (string | number)[]) => `| ${cells.map((cell) => String(cell).replaceAll("|", "\\|")).join(" | ")} |`;
  const rule = numeric.map((right) => (right ? "--:" : ":--"));
  return words([line(names), line(rule), ...rows.map((row) => line(names.map((name) => row[name] ?? "")))].join("\n"));
}

/** Shows sentences with computed numbers in them. */
export function words(markdown: string): Promise<void> {
  return show({ "text/markdown": markdown, "text/plain": markdown });
}

/** The kernel sends from another thread and may say that a cell has ended before what the cell showed has left; nbconvert then drops it. */
const TIME_TO_LEAVE = 150; // ms

async function show(forms: Readonly<Record<string, unknown>>): Promise<void> {
  await Deno.jupyter.display(forms, { raw: true });
  await new Promise((done) => setTimeout(done, TIME_TO_LEAVE));
}

/** A number with its interval and unit, or why there is none. */
export function told(estimate: Told, digits = 2): string {
  if (!estimate.ok) return `not given (${estimate.why})`;
  const { value, interval, unit } = estimate;
  const range = interval ? ` [${interval.map((end) => end.toFixed(digits)).join(", ")}]` : "";
  return `${value.toFixed(digits)}${unit === "1" ? "" : ` ${unit}`}${range}`;
}

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

/** Coordinates to a hundredth of a pixel: smaller files, and the same ones from every machine. */
function shorten(svg: string): string {
  return svg.replace(/ (d|transform|x|y|x1|x2|y1|y2|cx|cy|r|width|height)="([^"]*)"/g, (_, name: string, value: string) => {
    return ` ${name}="${value.replace(/-?\d+\.\d+(e-?\d+)?/g, (number) => String(Number(Number(number).toFixed(2)) + 0))}"`;
  });
}
