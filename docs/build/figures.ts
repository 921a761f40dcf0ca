// The figures of a stored run as a page shows them: when and on what, a summary, what is short, then every figure under its folder.
// HTML and not Markdown: thousands of rows, in groups that open.
import { escapeHtml } from "../../src/report/render/escape-html.js";
import type { Figure } from "../../tests/validation/figure.js";
import { readStored, type StoredRun } from "../../tests/validation/stored.js";

/** What is only reported, without a bar that it could miss. */
const REPORTED = /^printed\b[,;]? ?/;

/** HTML of the stored run of `npm run validation` or `npm run bench`, without empty lines, which would end a block of HTML within Markdown. */
export function figuresHtml(title: string): string {
  const run = readStored(title);
  if (run === undefined) return "<p>No run is stored yet.</p>";
  const short = run.figures.filter(({ ok }) => !ok);
  const folders = [...new Set(run.figures.map(folderOf))].sort();
  return [
    measuredOn(run),
    summary(run, folders),
    `<h2 id="short">Short of their bar</h2>`,
    short.length === 0 ? "<p>None in this run.</p>" : table(short, nameOf),
    `<h2 id="all">All figures</h2>`,
    ...folders.map((folder) =>
      group(
        folder,
        run.figures.filter((figure) => folderOf(figure) === folder),
      ),
    ),
  ].join("\n");
}

function measuredOn({ measured: { date, version, quick, machine, seconds } }: StoredRun): string {
  const size = quick ? "The <strong>quick</strong> run, with fewer repetitions and so wider bars than the full one" : "The full run";
  return `<p>${size}: ${date}, version ${version}, one machine (${escaped(machine)}), ${Math.round(seconds / 60)} minutes.</p>`;
}

function summary({ figures, skipped }: StoredRun, folders: readonly string[]): string {
  const count = (of: readonly Figure[]): (string | number)[] => {
    const barred = of.filter((figure) => !REPORTED.test(figure.bar) || !figure.ok);
    return [of.length, barred.length, barred.filter(({ ok }) => !ok).length, new Set(of.map(({ source }) => sourceOf(source))).size];
  };
  const row = (head: string, cells: readonly (string | number)[]) =>
    `<tr><th scope="row">${head}</th>${cells.map((cell) => `<td>${cell}</td>`).join("")}</tr>`;
  const rows = folders.map((folder) =>
    row(`<a href="#${folder}">${folder}</a>`, count(figures.filter((figure) => folderOf(figure) === folder))),
  );
  const absent =
    skipped.length === 0
      ? ""
      : `<p>Not measured here, because data were absent: ${skipped.map(({ name }) => escaped(name)).join("; ")}.</p>`;
  return `<div class="wide"><table><thead><tr><th>of</th><th>figures</th><th>with a bar</th><th>short</th><th>sources</th></tr></thead>
<tbody>${rows.join("\n")}
${row("all", count(figures))}</tbody></table></div>${absent}`;
}

/** A folder, closed; within it each source once, above its figures. */
function group(folder: string, figures: readonly Figure[]): string {
  const short = figures.filter(({ ok }) => !ok).length;
  const open = `<details class="figures" id="${folder}"><summary><strong>${folder}</strong>, ${figures.length} figures${short > 0 ? `, ${short} short` : ""}</summary>`;
  return `${open}\n${table(figures, (figure) => nameOf(figure).slice(folder.length + 1))}\n</details>`;
}

function table(figures: readonly Figure[], name: (figure: Figure) => string): string {
  const lines: string[] = [];
  let source = "";
  for (const figure of figures) {
    if (figure.source !== source) lines.push(`<tr><th colspan="4" scope="rowgroup">${escaped(figure.source)}</th></tr>`);
    source = figure.source;
    const bar = figure.ok ? figure.bar.replace(REPORTED, "") : figure.bar;
    const verdict = !figure.ok ? "<strong>short</strong>" : REPORTED.test(figure.bar) ? "" : "ok";
    lines.push(`<tr><td>${escaped(name(figure))}</td><td>${figure.value}</td><td>${escaped(bar)}</td><td>${verdict}</td></tr>`);
  }
  return `<div class="wide"><table><thead><tr><th>figure</th><th>value</th><th>bar</th><th></th></tr></thead>
<tbody>${lines.join("\n")}</tbody></table></div>`;
}

/** Some sources carry measured values after a colon or in brackets; the source is what stands before. */
function sourceOf(source: string): string {
  return source.split(/[:;(]/)[0]!.trim();
}

function folderOf({ name }: Figure): string {
  return name.slice(0, name.indexOf("/"));
}

function nameOf({ name }: Figure): string {
  return name;
}

function escaped(text: string): string {
  // a dollar would begin a formula
  return escapeHtml(text).replaceAll("$", "&#36;");
}
