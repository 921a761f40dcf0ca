// The outside recordings are plain tables: a heading, commas, no quotes.
import { readFileSync } from "node:fs";

/** The rows of a table, each a record of its texts by heading. */
export function readTable(path: string): Record<string, string>[] {
  const [heading = "", ...lines] = readFileSync(path, "utf8").trimEnd().split("\n");
  const names = heading.split(",");
  return lines.map((line) => {
    const cells = line.split(",");
    return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? ""]));
  });
}
