import { isMissingCode } from "../quality/missing-code.js";
import { appendRow, type GrowingColumns } from "./growing-columns.js";
import { type Path, type Problem, problem, type Raw } from "./problem.js";
import { type Reading, type Row, refuse, type Tally } from "./reading.js";

/** Where points go, and where they come from. */
export interface PointStream {
  readonly columns: GrowingColumns;
  readonly tally: Tally;
  readonly row: Row;
  /** Path of the object whose fields are the columns. */
  readonly prefix: Path;
  /** The device's missing-value code is looked for. */
  readonly coded: boolean;
}

/**
 * Takes one sample, track point or frame time (`x`, `y` 0 and `scale` 1 where there are none); `index` is its place in lists, -1 for no lists.
 * Answers whether it was kept.
 */
export function takePoint(
  reading: Reading,
  stream: PointStream,
  index: number,
  t: unknown,
  x: unknown,
  y: unknown,
  scale: unknown,
): boolean {
  const { columns, tally } = stream;
  tally.found++;
  if (typeof t === "number" && typeof x === "number" && typeof y === "number" && typeof scale === "number") {
    // a difference with itself is 0 only for finite numbers
    const finite = t - t === 0 && x - x === 0 && y - y === 0 && scale - scale === 0 && scale > 0;
    if (
      finite &&
      (t >= columns.latest || (reading.repair && !stream.row.mayBeCut)) &&
      !(stream.coded && isMissingCode(reading.missing, x, y))
    ) {
      appendRow(columns, t, x, y, scale);
      tally.kept++;
      return true;
    }
  }
  refuse(reading, stream.row, wrongWith(reading, stream, index, { t, x, y, scale }));
  tally.dropped++;
  return false;
}

function wrongWith(reading: Reading, stream: PointStream, index: number, point: Record<string, unknown>): Problem {
  const pathOf = (key: string): Path => (index < 0 ? [...stream.prefix, key] : [...stream.prefix, key, index]);
  for (const [key, value] of Object.entries(point)) {
    const path = pathOf(key);
    if (typeof value !== "number") return problem("badValue", path, "be a number", value);
    if (value - value !== 0) return problem("badValue", path, "be finite", value);
    if (key === "scale" && !(value > 0)) return problem("badValue", path, "be above 0", value);
  }
  const { t, x, y } = point as { t: number; x: number; y: number };
  if (stream.coded && isMissingCode(reading.missing, x, y)) {
    return problem("missingCode", pathOf("x"), "not be the code of a missing position", "", { name: "position", got: `${x}, ${y}` });
  }
  return problem("backward", pathOf("t"), `be at least the time before, ${stream.columns.latest}`, t);
}

/** A press at the missing-value code stands, without its position. */
export function checkCoded(reading: Reading, { x, y }: Raw): Problem | undefined {
  if (typeof x !== "number" || typeof y !== "number" || !isMissingCode(reading.missing, x, y)) return undefined;
  const more = { name: "position", got: `${x}, ${y}`, clear: [["x"], ["y"]] };
  return problem("missingCode", ["x"], "not be the code of a missing position", "", more);
}
