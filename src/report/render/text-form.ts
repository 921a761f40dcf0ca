import type { ReportDocument, ReportSection, ReportTable } from "./document.js";
import { visible } from "./escape-html.js";

/** Columns of a terminal. */
const WIDTH = 100;

/** The report for a terminal: plain text, nothing that a terminal would obey. */
export function textForm(report: ReportDocument): string {
  const title = visible(report.title);
  const blocks = [
    `${title}\n${"=".repeat(Math.min(WIDTH, title.length))}`,
    wrap(report.lead),
    ...report.sections.map(sectionText),
    wrap(report.foot),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function sectionText({ heading, paragraphs, points = [], tables = [] }: ReportSection): string {
  return [
    visible(heading).toUpperCase(),
    ...paragraphs.map((paragraph) => wrap(paragraph)),
    ...(points.length > 0 ? [points.map((point) => wrap(`- ${point}`, "  ")).join("\n")] : []),
    ...tables.map(tableText),
  ].join("\n\n");
}

function tableText({ caption, head, rows }: ReportTable): string {
  const cells = [head, ...rows].map((row) => row.map(visible));
  const widths = head.map((_, column) => Math.max(...cells.map((row) => row[column]!.length)));
  const line = (row: readonly string[]): string =>
    row
      .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!)))
      .join("  ")
      .trimEnd();
  return [`${visible(caption)}:`, ...cells.map((row) => `  ${line(row)}`)].join("\n");
}

/** Lines of at most `WIDTH` characters; those after the first begin with `indent`. A longer word stays whole. */
function wrap(text: string, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of visible(text).split(" ")) {
    if (line !== "" && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = indent + word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].join("\n");
}
