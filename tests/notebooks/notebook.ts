// A Jupyter notebook as it is stored: format 4.5, without times, versions and paths of the machine that executed it.

/** What one cell gave. */
export interface Output {
  readonly output_type: string;
  readonly name?: string;
  readonly text?: readonly string[];
  readonly data?: Readonly<Record<string, unknown>>;
  readonly [field: string]: unknown;
}

/** One cell; code cells have a count and outputs. */
export interface Cell {
  readonly cell_type: "markdown" | "code";
  readonly id: string;
  readonly source: readonly string[];
  readonly execution_count?: number | null;
  readonly outputs?: readonly Output[];
  readonly [field: string]: unknown;
}

export interface Notebook {
  readonly cells: readonly Cell[];
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly nbformat: number;
  readonly nbformat_minor: number;
}

const METADATA = {
  kernelspec: { display_name: "Deno", language: "typescript", name: "deno" },
  language_info: { file_extension: ".ts", mimetype: "text/x.typescript", name: "typescript" },
};

/** The executed notebook in its stored form: the same bytes from every run and machine. */
export function storedForm(executed: Notebook): string {
  let count = 0;
  const cells = executed.cells.map(({ cell_type, id, source, outputs = [] }) => {
    if (cell_type !== "code") return { cell_type, id, metadata: {}, source };
    count++;
    return { cell_type, execution_count: count, id, metadata: {}, outputs: joinStreams(outputs).map((one) => counted(one, count)), source };
  });
  return `${JSON.stringify({ cells, metadata: METADATA, nbformat: 4, nbformat_minor: 5 }, null, 1)}\n`;
}

/** Ids of the cells that differ between two stored forms, with what differs in them. */
export function differences(stored: Notebook, made: Notebook): string[] {
  const ids = [...new Set([...stored.cells, ...made.cells].map(({ id }) => id))];
  const found = ids.flatMap((id) => {
    const [before, after] = [stored, made].map(({ cells }) => cells.find((cell) => cell.id === id));
    if (!before || !after) return [`cell ${id}: only ${before ? "stored" : "made"}`];
    const parts = (["source", "outputs"] as const).filter((part) => JSON.stringify(before[part]) !== JSON.stringify(after[part]));
    return parts.map((part) => `cell ${id}: ${part} differ${part === "source" ? "s" : ""}`);
  });
  return found.length > 0 ? found : ["its counts, metadata or spacing differ"];
}

/** Outputs that a cell asks to show. */
export function askedBy({ cell_type, source }: Cell): number {
  return cell_type === "code" ? source.filter((line) => /^await (chart|table|words)\(/.test(line)).length : 0;
}

/** Ids of the cells that show less than they ask to show: the kernel said that the cell had ended before it had sent everything. */
export function cellsCutShort({ cells }: Notebook): string[] {
  return cells.flatMap((cell) => ((cell.outputs ?? []).length < askedBy(cell) ? [cell.id] : []));
}

/** Text that a kernel happens to send in pieces is one output. */
function joinStreams(outputs: readonly Output[]): Output[] {
  const joined: Output[] = [];
  for (const output of outputs) {
    const before = joined.at(-1);
    if (output.output_type === "stream" && before?.output_type === "stream" && before.name === output.name) {
      const text = [...(before.text ?? []), ...(output.text ?? [])].join("");
      joined[joined.length - 1] = { ...before, text: text.split(/(?<=\n)/) };
    } else joined.push(output);
  }
  return joined;
}

function counted(output: Output, count: number): Output {
  return output.output_type === "execute_result" ? { ...output, execution_count: count } : output;
}
