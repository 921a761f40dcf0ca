import { readFileSync } from "node:fs";
import type { Notebook } from "../tests/notebooks/notebook.js";

/** The chart that a cell of a stored notebook shows, as its specification. */
export function notebookChart(name: string, id: string): object {
  const { cells } = JSON.parse(readFileSync(new URL(`../examples/notebooks/${name}.ipynb`, import.meta.url), "utf8")) as Notebook;
  const outputs = cells.find((cell) => cell.id === id)?.outputs ?? [];
  const found = outputs.flatMap(({ data = {} }) => data["application/vnd.vegalite.v5+json"] ?? []);
  if (found.length !== 1) throw new Error(`the notebook ${name} shows ${found.length} charts in a cell ${id}, not one`);
  return found[0] as object;
}
