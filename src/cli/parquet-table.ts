import { VERSION } from "../math/version.js";
import { UsageError } from "./parse-arguments.js";
import { type Cell, tableColumns, textColumns } from "./table-of-acquisitions.js";

/** Rows of one group: some 20 MB while they are kept. */
const GROUP = 20_000;

/** A table of acquisitions that is written by columns. */
export interface ParquetTable {
  readonly add: (rows: readonly (readonly Cell[])[]) => Promise<void>;
  readonly end: () => Promise<void>;
}

/** Begins a table; its bytes go where they are sent. Needs hyparquet-writer beside this package. */
export async function createParquetTable(send: (bytes: Uint8Array) => Promise<void>): Promise<ParquetTable> {
  const { ByteWriter, ParquetWriter } = await loadLibrary();
  const columns = tableColumns().map((name) => ({ name, type: typeOf(name) }));
  const bytes = new ByteWriter();
  const schema = [
    { name: "acquisitions", num_children: columns.length },
    ...columns.map(({ name, type }) => ({ name, repetition_type: "OPTIONAL" as const, ...type })),
  ];
  const writer = new ParquetWriter({ writer: bytes, schema, createdBy: `aimed-movement ${VERSION}` });
  let group: (readonly Cell[])[] = [];
  const drain = async (): Promise<void> => {
    const done = bytes.getBytes().slice();
    bytes.index = 0;
    await send(done);
  };
  const writeGroup = async (): Promise<void> => {
    if (group.length > 0) {
      // a negative zero is the zero that a text of it reads as
      const plain = (value: Cell): Cell => (value === 0 ? 0 : value);
      const columnData = columns.map(({ name }, i) => ({ name, data: group.map((cells) => plain(cells[i]!)) }));
      await writer.write({ columnData, rowGroupSize: GROUP });
      group = [];
    }
    await drain();
  };
  return {
    add: async (rows) => {
      for (const cells of rows) {
        if (group.push(cells) === GROUP) await writeGroup();
      }
    },
    end: async () => {
      await writeGroup();
      await writer.finish();
      await drain();
    },
  };
}

function typeOf(column: string) {
  if (column === "pressedInMotion") return { type: "BOOLEAN" } as const;
  return textColumns.has(column) ? ({ type: "BYTE_ARRAY", converted_type: "UTF8" } as const) : ({ type: "DOUBLE" } as const);
}

async function loadLibrary(): Promise<typeof import("hyparquet-writer")> {
  try {
    return await import("hyparquet-writer");
  } catch {
    throw new UsageError("--form parquet needs hyparquet-writer: npm install hyparquet-writer beside this package");
  }
}
