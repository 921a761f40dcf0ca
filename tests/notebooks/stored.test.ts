import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { askedBy, cellsCutShort, differences, type Notebook, type Output, storedForm } from "./notebook.js";

const FOLDER = join("examples", "notebooks");
const names = readdirSync(FOLDER).filter((file) => file.endsWith(".ipynb"));
const read = (name: string) => readFileSync(join(FOLDER, name), "utf8");

/** Everything that an output shows in words, and the data of its chart. */
const shownBy = ({ text = [], data = {} }: Output) =>
  [...text, ...Object.entries(data).flatMap(([form, value]) => (form === "image/svg+xml" ? [] : [spelled(value)]))].join("");
const spelled = (value: unknown) => (Array.isArray(value) ? value.join("") : typeof value === "string" ? value : JSON.stringify(value));

describe("stored notebooks against outside values", () => {
  it("are the six that the page of notebooks lists", () => {
    const page = readFileSync(join("docs", "notebooks.md"), "utf8");
    expect(names).toHaveLength(6);
    for (const name of names) expect(page).toContain(name.replace(".ipynb", ""));
  });

  // Source: the JSON schema of nbformat 4.5 (required fields, the pattern of cell ids, the kinds of output), from memory
  it.each(names)("%s is of format 4.5", (name) => {
    const { cells, metadata, nbformat, nbformat_minor } = JSON.parse(read(name)) as Notebook;
    expect([nbformat, nbformat_minor]).toEqual([4, 5]);
    expect(metadata.kernelspec).toMatchObject({ name: "deno", display_name: "Deno" });
    expect(metadata.language_info).toMatchObject({ name: "typescript" });
    expect(new Set(cells.map(({ id }) => id)).size).toBe(cells.length);
    for (const cell of cells) {
      expect(cell.id).toMatch(/^[a-zA-Z0-9-_]{1,64}$/);
      expect(Object.keys(cell).sort()).toEqual(
        cell.cell_type === "code"
          ? ["cell_type", "execution_count", "id", "metadata", "outputs", "source"]
          : ["cell_type", "id", "metadata", "source"],
      );
      for (const output of cell.outputs ?? []) {
        expect(["stream", "display_data", "execute_result", "error"]).toContain(output.output_type);
        if (output.output_type === "display_data") expect(Object.keys(output).sort()).toEqual(["data", "metadata", "output_type"]);
      }
    }
  });
});

describe("stored notebooks properties", () => {
  it.each(names)("%s was executed from top to bottom without an error or a warning", (name) => {
    const code = (JSON.parse(read(name)) as Notebook).cells.filter(({ cell_type }) => cell_type === "code");
    expect(code.map(({ execution_count }) => execution_count)).toEqual(code.map((_, at) => at + 1));
    const outputs = code.flatMap(({ outputs = [] }) => outputs);
    expect(outputs.filter(({ output_type, name: stream }) => output_type === "error" || stream === "stderr")).toEqual([]);
  });

  it.each(names)("%s shows what its cells ask to show", (name) => {
    for (const cell of (JSON.parse(read(name)) as Notebook).cells)
      expect([cell.id, (cell.outputs ?? []).length]).toEqual([cell.id, askedBy(cell)]);
  });

  it("a cell that shows less than it asks to is told", () => {
    const cell = { cell_type: "code", id: "a", source: ["const x = 1;\n", "await words(x);\n", "await table([]);"] } as const;
    const shown = { output_type: "display_data" };
    const notebook = (outputs: Output[]) => ({ cells: [{ ...cell, outputs }], metadata: {}, nbformat: 4, nbformat_minor: 5 });
    expect([[], [shown], [shown, shown]].map((outputs) => cellsCutShort(notebook(outputs)))).toEqual([["a"], ["a"], []]);
  });

  it.each(names)("%s shows each chart as a specification and as a picture", (name) => {
    const { cells } = JSON.parse(read(name)) as Notebook;
    const data = cells.flatMap(({ outputs = [] }) => outputs).map((output): Readonly<Record<string, unknown>> => output.data ?? {});
    const charts = data.filter((forms) => forms["application/vnd.vegalite.v5+json"] !== undefined);
    expect(charts.length).toBeGreaterThan(0);
    for (const forms of charts) {
      expect(spelled(forms["image/svg+xml"])).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
      expect(spelled(forms["text/plain"])).not.toContain("see its specification");
    }
  });

  it.each(names)("%s says that its data are simulated, and ends with limits", (name) => {
    const { cells } = JSON.parse(read(name)) as Notebook;
    expect(cells[0]!.source.join("")).toContain("simulated");
    expect(cells.at(-1)!.source[0]).toContain("Limits");
  });

  it.each(names)("%s has no path of a machine, and is under 1 MB", (name) => {
    expect(read(name)).not.toMatch(/\/(home|root|work|tmp|Users|private)\//);
    expect(read(name)).not.toMatch(/[A-Z]:\\\\/);
    expect(read(name).length).toBeLessThan(1e6);
  });

  // a number in the text is computed by a cell, set by one, or has its source beside it
  it.each(names)("%s quotes no number that is neither computed nor sourced", (name) => {
    const { cells } = JSON.parse(read(name)) as Notebook;
    const known = cells.flatMap(({ cell_type, source, outputs = [] }) =>
      cell_type === "code" ? [source.join(""), ...outputs.map(shownBy)] : [],
    );
    const numbers = new Set(known.join("\n").match(/\d+(\.\d+)?/g));
    const paragraphs = cells.filter(({ cell_type }) => cell_type === "markdown").flatMap(({ source }) => source.join("").split("\n\n"));
    const unknown = paragraphs
      .filter((text) => !/Source: /.test(text))
      .flatMap((text) => (text.match(/\d+(\.\d+)?/g) ?? []).filter((number) => !numbers.has(number)));
    expect(unknown).toEqual([]);
  });

  it.each(names)("%s is stored in the form that the script writes", (name) => {
    expect(storedForm(JSON.parse(read(name)) as Notebook)).toBe(read(name));
  });
});

describe("differences of notebooks", () => {
  const before = JSON.parse(read(names[0]!)) as Notebook;

  it("names the cell whose output differs, and one that is missing", () => {
    const at = before.cells.findIndex(({ cell_type }) => cell_type === "code");
    const changed = before.cells.map((cell, i) => (i === at ? { ...cell, outputs: [] } : cell)).slice(0, -1);
    const { id } = before.cells[at]!;
    expect(differences(before, { ...before, cells: changed })).toEqual([
      `cell ${id}: outputs differ`,
      `cell ${before.cells.at(-1)!.id}: only stored`,
    ]);
  });

  it("takes times, versions and pieces of a stream out of what is stored", () => {
    const piece = (text: string) => ({ output_type: "stream", name: "stdout", text: [text] });
    const cell = { cell_type: "code" as const, id: "a", source: ["1"], execution_count: 7, metadata: { execution: { start: "now" } } };
    const made = (outputs: Output[]) =>
      storedForm({ cells: [{ ...cell, outputs }], metadata: { version: "9" }, nbformat: 4, nbformat_minor: 5 });
    expect(made([piece("a\n"), piece("b\n")])).toBe(made([{ ...piece(""), text: ["a\n", "b\n"] }]));
    expect(made([])).not.toMatch(/now|"9"|7/);
  });
});
