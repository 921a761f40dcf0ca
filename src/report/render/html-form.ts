import type { ReportDocument, ReportSection, ReportTable } from "./document.js";
import { escapeHtml } from "./escape-html.js";

/** A drawn chart. */
export interface ReportPicture {
  readonly title: string;
  /** Text alternative: what the chart shows, with its figures. */
  readonly description: string;
  /** The drawing as a whole SVG document. It is shown as an image, in which no script runs. */
  readonly svg: string;
}

/** The one style of the page. A change changes its fingerprint below, which a test checks. */
export const STYLE: string =
  "body{font:1rem/1.55 system-ui,sans-serif;color:#1b1f24;background:#fff;max-width:46rem;margin:2rem auto;padding:0 1rem}" +
  "h1{font-size:1.6rem;line-height:1.25;margin:0 0 .5rem}h2{font-size:1.2rem;margin:2rem 0 .4rem}p{margin:.5rem 0}" +
  ".lead{border-left:.3rem solid #1b1f24;padding-left:.8rem}.foot{color:#444c56;font-size:.875rem;margin-top:2.5rem}" +
  ".scroll{overflow-x:auto}table{border-collapse:collapse;margin:.8rem 0;font-variant-numeric:tabular-nums}" +
  "caption{text-align:left;font-weight:600;padding:.3rem 0}th,td{padding:.25rem .7rem .25rem 0;text-align:right;border-bottom:1px solid #d0d7de;vertical-align:top}" +
  "th:first-child,td:first-child{text-align:left}th{font-weight:600}tbody th{font-weight:400}" +
  "figure{margin:1.5rem 0;break-inside:avoid}figure img{max-width:100%;height:auto}figcaption{font-size:.875rem;color:#444c56}" +
  "a{color:#0b57a4}@media print{body{margin:0;max-width:none;font-size:10.5pt}h2{break-after:avoid}table{break-inside:avoid}}";
/** SHA-256 of `STYLE` in base 64: the content policy lets this style in, and nothing else. */
export const STYLE_HASH: string = "sha256-g5sZIXqcZBo/95JgrUicC4f0/WbMkLLweLJQR5ShCUU=";

/** The report as one HTML file that needs nothing else: no scripts, no addresses, images inline; a content policy says so to the browser. */
export function htmlForm(report: ReportDocument, pictures: readonly ReportPicture[]): string {
  const policy = `default-src 'none'; style-src '${STYLE_HASH}'; img-src data:; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escapeHtml(report.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${escapeHtml(report.title)}</h1>
<p class="lead">${escapeHtml(report.lead)}</p>
${report.sections.map(sectionHtml).join("\n")}
${pictures.length > 0 ? `<section aria-labelledby="pictures">\n<h2 id="pictures">In pictures</h2>\n${pictures.map(pictureHtml).join("\n")}\n</section>\n` : ""}</main>
<footer><p class="foot">${escapeHtml(report.foot)}</p></footer>
</body>
</html>
`;
}

function sectionHtml({ id, heading, paragraphs, points = [], tables = [] }: ReportSection): string {
  return [
    `<section aria-labelledby="${id}">`,
    `<h2 id="${id}">${escapeHtml(heading)}</h2>`,
    ...paragraphs.map((paragraph) => `<p>${escapeHtml(paragraph)}</p>`),
    ...(points.length > 0 ? [`<ul>${points.map((point) => `<li>${escapeHtml(point)}</li>`).join("")}</ul>`] : []),
    ...tables.map(tableHtml),
    "</section>",
  ].join("\n");
}

function tableHtml({ caption, head, rows }: ReportTable): string {
  const headCells = head.map((cell) => `<th scope="col">${escapeHtml(cell)}</th>`).join("");
  const body = rows.map(
    ([name = "", ...cells]) =>
      `<tr><th scope="row">${escapeHtml(name)}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join("")}</tr>`,
  );
  // a table wider than the page scrolls within itself, by keyboard, too
  return `<div class="scroll" tabindex="0" role="group" aria-label="${escapeHtml(caption)}"><table><caption>${escapeHtml(caption)}</caption><thead><tr>${headCells}</tr></thead><tbody>${body.join("")}</tbody></table></div>`;
}

function pictureHtml({ title, description, svg }: ReportPicture): string {
  return `<figure><img src="data:image/svg+xml,${encodeURIComponent(whole(svg))}" alt="${escapeHtml(`${title}. ${description}`)}"><figcaption>${escapeHtml(title)}. ${escapeHtml(description)}</figcaption></figure>`;
}

/** Half a character cannot be written in an address. */
function whole(svg: string): string {
  return svg.replace(/\p{Surrogate}/gu, "\ufffd");
}
