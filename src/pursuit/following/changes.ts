import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import type { ChangeResponse, ChangeSummary } from "../types.js";
import { answerTo, singleLatency } from "./change-latency.js";
import type { DrawSettings } from "./drawn-interval.js";
import type { ErrorColumns } from "./error-of.js";
import { moveEstimate } from "./move-estimate.js";
import { pooledLatency } from "./pooled-latency.js";
import type { Stretch } from "./stretch.js";
import type { TargetChange } from "./target-changes.js";

/** Answers to the change before must be over, and those to this one must be free of the next; seconds. */
const FREE_BEFORE = 0.6;
const FREE_AFTER = 0.5;
/** The pointer is back when it stays this long, seconds. */
const BACK = 0.1;
/** Half a second of error is summed up. */
const INTEGRAL = 0.5;
/** Overshoot is looked for this long at the most, seconds. */
const OVERSHOOT = 1;
/** Fewer events make no average. */
const ENOUGH = 10;

/** How the sudden changes of the target were answered; `frameLag` seconds are taken off the latencies. */
export function changeSummary(
  stretch: Stretch,
  columns: ErrorColumns,
  changes: readonly TargetChange[],
  frameLag: number,
  unit: string,
  settings: DrawSettings,
): ChangeSummary {
  const { t0, rate, pieces } = stretch;
  const at = (t: number): number => (t - t0) * rate;
  const told: { event: ChangeResponse; change: TargetChange }[] = [];
  const leftOut: TargetChange[] = [];
  changes.forEach((change, k) => {
    const i = at(change.t);
    const piece = pieces.find(({ start, end }) => i - 0.1 * rate >= start + 1 && i + INTEGRAL * rate <= end - 2);
    if (at(change.t) < stretch.acquired) return;
    const before = changes[k - 1]?.t ?? Number.NEGATIVE_INFINITY;
    const next = changes[k + 1]?.t ?? Number.POSITIVE_INFINITY;
    if (piece === undefined || change.t - before < FREE_BEFORE || next - change.t < FREE_AFTER) leftOut.push(change);
    else told.push({ event: describe(stretch, columns, change, i, Math.min(piece.end, Math.floor(at(next))), frameLag), change });
  });
  const events = told.map(({ event }) => event);
  const values = (pick: (event: ChangeResponse) => number | null): number[] => events.flatMap((event) => pick(event) ?? []);
  return {
    events,
    leftOut: leftOut.length,
    pooledLatency:
      events.length < ENOUGH
        ? tooFew(events.length)
        : moveEstimate(
            pooledLatency(
              told.map(({ change }) => answerTo(stretch, change)),
              rate,
              settings,
            ),
            -frameLag,
          ),
    latency: medianEstimate(
      values((event) => event.latency),
      "s",
      settings.level,
    ),
    overshoot: meanEstimate(
      values((event) => event.overshoot),
      unit,
      settings.level,
    ),
    timeBack: medianEstimate(
      values((event) => (event.timeBack === 0 ? null : event.timeBack)),
      "s",
      settings.level,
    ),
    errorIntegral: meanEstimate(
      values((event) => event.errorIntegral),
      `${unit} s`,
      settings.level,
    ),
  };
}

function tooFew(n: number): Estimate {
  return { ok: false, why: "tooFew", unit: "s", n };
}

/** What followed the change at the sample index `i` (a fraction), up to the sample `until`. */
function describe(
  stretch: Stretch,
  { x, y }: ErrorColumns,
  change: TargetChange,
  i: number,
  until: number,
  frameLag: number,
): ChangeResponse {
  const { before, after } = change;
  const { rate } = stretch;
  const latency = singleLatency(answerTo(stretch, change), rate);
  const speed = Math.sqrt(before.x ** 2 + before.y ** 2);
  let overshoot = 0;
  const first = Math.ceil(i);
  for (let k = first; k < Math.min(until, first + OVERSHOOT * rate) && speed > 0; k++) {
    overshoot = Math.max(overshoot, (x[k]! * before.x + y[k]! * before.y) / speed);
  }
  const turn = Math.abs(Math.atan2(before.x * after.y - before.y * after.x, before.x * after.x + before.y * after.y));
  return {
    t: change.t,
    turnDeg: (turn * 180) / Math.PI,
    latency: latency === null ? null : latency - frameLag,
    overshoot,
    timeBack: timeBack(stretch, i, until),
    errorIntegral: integral((k) => Math.sqrt(x[k]! * x[k]! + y[k]! * y[k]!), i, rate),
  };
}

/** From the index `from` until the first sample of a stay of 0.1 s, once the pointer has been off the target. */
function timeBack({ inside, rate }: Stretch, from: number, until: number): number | null {
  const least = Math.ceil(BACK * rate);
  let k = Math.ceil(from);
  while (k < until && inside[k] === 1) k++;
  if (k >= until) return 0;
  for (let run = 0; k < until; k++) {
    run = inside[k] === 1 ? run + 1 : 0;
    if (run === least) return Math.max(0, (k + 1 - least - from) / rate);
  }
  return null;
}

/** Trapezoids of a column over half a second from the index `from` on, on straight lines between samples. */
function integral(value: (k: number) => number, from: number, rate: number): number {
  const count = Math.round(INTEGRAL * rate);
  const between = (at: number): number => {
    const k = Math.floor(at);
    return at === k ? value(k) : value(k) + (at - k) * (value(k + 1) - value(k));
  };
  const step = (INTEGRAL * rate) / count;
  let sum = (between(from) + between(from + INTEGRAL * rate)) / 2;
  for (let j = 1; j < count; j++) sum += between(from + j * step);
  return (sum * step) / rate;
}
