import { quantile } from "../../math/quantile.js";
import type { Trace } from "../../trace/types.js";

/** Share of the spacings below the one that is taken for the device's own: a slow pointer is seldom reported twice in a row. */
const SHORTEST = 0.1;

/** A silence longer than this many intervals left out at least one report. */
const SILENT = 1.5;
/** Room for rounding when a step is compared with the quantum. */
const SLACK = 1 + 1e-6;

/**
 * The trace with the readings that a device leaves out because they equal the one before. It reports a change when the pointer crosses the border between two
 * readings, so that a straight line from report to report runs half a quantum ahead of a slow pointer: a lead that is not the person's. Put back is the
 * reading one interval before each report that came after a silence and changed by no more than a quantum on either axis; larger steps are left alone.
 */
export function restoreHolds(trace: Trace, quantum: number): Trace {
  const { t, x, y } = trace;
  const n = t.length;
  const interval = reportInterval(t);
  if (!(interval > 0)) return trace;
  const least = SILENT * interval;
  const most = quantum * SLACK;
  const held = (i: number): boolean =>
    t[i]! - t[i - 1]! > least && Math.abs(x[i]! - x[i - 1]!) <= most && Math.abs(y[i]! - y[i - 1]!) <= most;
  let count = n;
  for (let i = 1; i < n; i++) if (held(i)) count++;
  if (count === n) return trace;
  const out = { t: new Float64Array(count), x: new Float64Array(count), y: new Float64Array(count) };
  let k = 0;
  const put = (time: number, i: number): void => {
    out.t[k] = time;
    out.x[k] = x[i]!;
    out.y[k++] = y[i]!;
  };
  for (let i = 0; i < n; i++) {
    if (i > 0 && held(i)) put(t[i]! - interval, i - 1);
    put(t[i]!, i);
  }
  return out;
}

/** About the time between two reports in a row, seconds; 0 when there is no telling. */
function reportInterval(t: Float64Array): number {
  const spacings = t.subarray(1).map((time, k) => time - t[k]!);
  const sorted = spacings.filter((spacing) => spacing > 0).sort();
  return sorted.length === 0 ? 0 : quantile(sorted, SHORTEST);
}
