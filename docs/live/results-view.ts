// What was found, as headings, tables and pictures.
import type { createPainter } from "../../src/cli/draw-pictures.js";
import type { ChartSpec } from "../../src/report/index.js";
import type { ReportTable } from "../../src/report/render/document.js";
import type { Analysis } from "./analysis.js";
import { make } from "./elements.js";
import { loadScript } from "./load-script.js";

declare global {
  var aimedMovementPainter: typeof createPainter | undefined;
}

/** A table in a frame that scrolls by itself where it is wider than the page. */
export function tableView({ caption, head, rows }: ReportTable): HTMLElement {
  const body = make("tbody");
  for (const row of rows) addLine(body, row);
  const headLine = make("tr", {}, ...head.map((cell) => make("th", { scope: "col" }, cell)));
  const table = make("table", {}, make("caption", {}, caption), make("thead", {}, headLine), body);
  return make("div", { class: "live-table", role: "region", "aria-label": caption, tabindex: "0" }, table);
}

export function addLine(body: HTMLElement, cells: readonly string[]): void {
  body.append(make("tr", {}, ...cells.map((cell, i) => (i === 0 ? make("th", { scope: "row" }, cell) : make("td", {}, cell)))));
}

/** Shows an analysis in place of what was shown before; pictures follow when their program has come. */
export function showAnalysis(place: HTMLElement, { headline, tables, acquisitions, charts }: Analysis, of: string): void {
  const pictures = make("div", { class: "live-pictures" }, make("p", {}, charts.length > 0 ? "Pictures are being drawn." : ""));
  const every = make("details", {}, make("summary", {}, `${acquisitions.caption} (${acquisitions.rows.length})`), tableView(acquisitions));
  place.replaceChildren(
    make("h3", { tabindex: "-1" }, of),
    make("p", {}, headline),
    ...tables.map(tableView),
    ...(acquisitions.rows.length > 0 ? [every] : []),
    pictures,
  );
  drawInto(pictures, charts).catch((error: Error) => pictures.replaceChildren(make("p", {}, `No pictures: ${error.message}.`)));
}

async function drawInto(place: HTMLElement, charts: readonly ChartSpec[]): Promise<void> {
  if (charts.length === 0) return;
  await loadScript("live-charts.js");
  const paint = await globalThis.aimedMovementPainter!();
  const { pictures, failures } = await paint!(charts);
  const images = pictures.map(({ title, description, svg }) => {
    const source = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
    return make("img", { src: source, alt: `${title}. ${description}` });
  });
  place.replaceChildren(...images, ...failures.map((failure) => make("p", {}, failure)));
}
