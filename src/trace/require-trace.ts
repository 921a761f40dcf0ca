import { requireColumn, show } from "../math/require.js";
import type { Trace } from "./types.js";

/** Throws unless the trace has equally long finite columns whose time never runs backward. */
export function requireTrace(where: string, name: string, trace: Trace): void {
  if (trace === null || typeof trace !== "object") {
    throw new TypeError(`${where}: ${name} must be a trace with columns t, x, y, got ${show(trace)}`);
  }
  const { t, x, y } = trace;
  if (isInOrder(t, x, y)) return;
  requireColumn(where, `${name}.t`, t);
  requireColumn(where, `${name}.x`, x, t.length);
  requireColumn(where, `${name}.y`, y, t.length);
  for (let i = 1; i < t.length; i++) {
    if (t[i]! < t[i - 1]!) {
      throw new RangeError(`${where}: ${name}.t must not run backward, got ${name}.t[${i}] = ${t[i]} after ${t[i - 1]}`);
    }
  }
}

/** The whole question in one pass over the columns, for the usual case that nothing is wrong; who asked for what is told afterwards. */
function isInOrder(t: Float64Array, x: Float64Array, y: Float64Array): boolean {
  if (!(t instanceof Float64Array && x instanceof Float64Array && y instanceof Float64Array)) return false;
  const n = t.length;
  if (x.length !== n || y.length !== n) return false;
  let last = Number.NEGATIVE_INFINITY;
  // a finite number times 0 is 0, anything else is not a number and stays so in every sum
  let zero = 0;
  for (let i = 0; i < n; i++) {
    const time = t[i]!;
    if (time < last) return false;
    last = time;
    zero += (time + x[i]! + y[i]!) * 0;
  }
  return zero === 0;
}
