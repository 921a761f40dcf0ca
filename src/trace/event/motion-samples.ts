import { show } from "../../math/require.js";

/** Times from here on count from 1970 (this one lies in 1973), times below from the start of a machine or a page. */
const EPOCH_FROM = 1e8;
/** No clock in seconds reads as much before the year 5138: such a time is in milliseconds. */
const MILLISECONDS_FROM = 1e11;

/** One readable report of a relative device. */
export interface MotionSample {
  readonly t: number;
  readonly dx: number;
  readonly dy: number;
  readonly buttons?: number;
}

/** The reports in order of time; throws at the first that cannot be read, unless `repair`. */
export function readMotion(
  where: string,
  events: readonly MotionSample[],
  origin: number | undefined,
  repair: boolean,
): { samples: readonly MotionSample[]; sorted: number; dropped: { total: number; reasons: string[] } } {
  const samples: MotionSample[] = [];
  const reasons: string[] = [];
  let total = 0;
  let sorted = 0;
  let latest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < events.length; i++) {
    const event = events[i]!;
    if (event === null || typeof event !== "object") throw new TypeError(`${where}: events[${i}] must be a report, got ${show(event)}`);
    const fault = faultOf(event);
    if (fault !== undefined) {
      if (!repair) throw new RangeError(`${where}: events[${i}].${fault}`);
      if (total++ < 100) reasons.push(`events[${i}].${fault}`);
      continue;
    }
    requireOneClock(where, i, event.t, origin ?? samples[0]?.t ?? event.t);
    if (event.t < latest) {
      if (!repair) throw new RangeError(`${where}: events[${i}].t must not run backward, got ${event.t} after ${latest}`);
      sorted++;
    } else latest = event.t;
    samples.push(event);
  }
  if (sorted > 0) samples.sort((a, b) => a.t - b.t);
  return { samples, sorted, dropped: { total, reasons } };
}

function faultOf(event: MotionSample): string | undefined {
  if (!Number.isFinite(event.t)) return `t must be finite, got ${event.t}`;
  for (const name of ["dx", "dy"] as const) {
    // counts above this could not be added without rounding
    if (!Number.isInteger(event[name]) || Math.abs(event[name]) > 2 ** 31)
      return `${name} must be a whole number of counts, got ${event[name]}`;
  }
  const { buttons = 0 } = event;
  if (!Number.isInteger(buttons) || buttons < 0 || buttons >= 2 ** 31)
    return `buttons must be a whole number of at least 0, got ${buttons}`;
  return undefined;
}

function requireOneClock(where: string, i: number, t: number, first: number): void {
  if (t >= MILLISECONDS_FROM)
    throw new RangeError(`${where}: events[${i}].t must be in seconds, got ${t}, which reads like milliseconds since 1970`);
  const clock = (time: number): string => (time >= EPOCH_FROM ? "seconds since 1970" : "seconds since a start");
  if (clock(t) !== clock(first)) {
    throw new RangeError(
      `${where}: events[${i}].t must be on one clock with the others, got ${t} (${clock(t)}) beside ${first} (${clock(first)})`,
    );
  }
}
