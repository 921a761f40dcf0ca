/** Rows that come one after another, to be columns in the end; unused columns stay empty. */
export interface GrowingColumns {
  readonly width: 1 | 3 | 4;
  /** The rows, value by value: what has grown is never copied to make room, of which a long recording would hold as much again. */
  readonly blocks: Float64Array[];
  /** Values that the last block still takes. */
  room: number;
  length: number;
  /** Latest time so far. */
  latest: number;
  /** Rows whose time lay before `latest`. */
  backward: number;
}

const NONE = new Float64Array(0);
/** Rows of the first block; each holds twice as many as the one before, up to `MOST_ROWS`. */
const FIRST_ROWS = 64;
const MOST_ROWS = 2 ** 15;

/** `width` 1 is times alone, 3 a trace, 4 a track with a scale. */
export function createColumns(width: 1 | 3 | 4): GrowingColumns {
  return { width, blocks: [], room: 0, length: 0, latest: Number.NEGATIVE_INFINITY, backward: 0 };
}

export function appendRow(columns: GrowingColumns, t: number, x: number, y: number, scale: number): void {
  const { width } = columns;
  if (columns.room === 0) addBlock(columns);
  const block = columns.blocks[columns.blocks.length - 1]!;
  const at = block.length - columns.room;
  block[at] = t;
  if (width > 1) {
    block[at + 1] = x;
    block[at + 2] = y;
    if (width > 3) block[at + 3] = scale;
  }
  columns.room -= width;
  columns.length++;
  if (t < columns.latest) columns.backward++;
  else columns.latest = t;
}

function addBlock(columns: GrowingColumns): void {
  columns.room = columns.width * Math.min(MOST_ROWS, FIRST_ROWS * 2 ** columns.blocks.length);
  columns.blocks.push(new Float64Array(columns.room));
}

/** The columns in time order; rows of one time keep their order. */
export function finishColumns(columns: GrowingColumns): { t: Float64Array; x: Float64Array; y: Float64Array; scale: Float64Array } {
  const { width, length, backward } = columns;
  const t = columnOf(columns, 0);
  const order = backward > 0 ? Uint32Array.from({ length }, (_, i) => i).sort((a, b) => t[a]! - t[b]! || a - b) : undefined;
  const inOrder = (column: Float64Array): Float64Array => (order ? Float64Array.from(order, (at) => column[at]!) : column);
  const finish = (place: number): Float64Array => (place < width ? inOrder(columnOf(columns, place)) : NONE);
  return { t: inOrder(t), x: finish(1), y: finish(2), scale: finish(3) };
}

/** The values at one place of all rows. */
function columnOf({ width, blocks, length }: GrowingColumns, place: number): Float64Array {
  const column = new Float64Array(length);
  let row = 0;
  for (const block of blocks) for (let at = place; at < block.length && row < length; at += width) column[row++] = block[at]!;
  return column;
}
