/** Columns that grow as rows come; unused ones stay empty. */
export interface GrowingColumns {
  readonly width: 1 | 3 | 4;
  t: Float64Array;
  x: Float64Array;
  y: Float64Array;
  scale: Float64Array;
  length: number;
  /** Latest time so far. */
  latest: number;
  /** Rows whose time lay before `latest`. */
  backward: number;
}

const NONE = new Float64Array(0);

/** `width` 1 is times alone, 3 a trace, 4 a track with a scale. */
export function createColumns(width: 1 | 3 | 4): GrowingColumns {
  return { width, t: NONE, x: NONE, y: NONE, scale: NONE, length: 0, latest: Number.NEGATIVE_INFINITY, backward: 0 };
}

export function appendRow(columns: GrowingColumns, t: number, x: number, y: number, scale: number): void {
  const at = columns.length++;
  if (at === columns.t.length) grow(columns);
  columns.t[at] = t;
  if (columns.width > 1) {
    columns.x[at] = x;
    columns.y[at] = y;
    if (columns.width > 3) columns.scale[at] = scale;
  }
  if (t < columns.latest) columns.backward++;
  else columns.latest = t;
}

/** The columns at their length and in time order; rows of one time keep their order. */
export function finishColumns(columns: GrowingColumns): Pick<GrowingColumns, "t" | "x" | "y" | "scale"> {
  const { t, x, y, scale, length } = columns;
  const order = columns.backward > 0 ? Uint32Array.from({ length }, (_, i) => i).sort((a, b) => t[a]! - t[b]! || a - b) : undefined;
  // copies, so that no unused room goes along where a column is cloned or sent
  const finish = (column: Float64Array): Float64Array => (order ? Float64Array.from(order, (at) => column[at]!) : column.slice(0, length));
  const { width } = columns;
  return { t: finish(t), x: width > 1 ? finish(x) : NONE, y: width > 1 ? finish(y) : NONE, scale: width > 3 ? finish(scale) : NONE };
}

function grow(columns: GrowingColumns): void {
  const room = Math.max(64, 2 * columns.length);
  const widen = (column: Float64Array): Float64Array => {
    const wider = new Float64Array(room);
    wider.set(column);
    return wider;
  };
  columns.t = widen(columns.t);
  if (columns.width > 1) {
    columns.x = widen(columns.x);
    columns.y = widen(columns.y);
  }
  if (columns.width > 3) columns.scale = widen(columns.scale);
}
