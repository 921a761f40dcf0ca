import type { Reason } from "../../math/estimate.js";
import { quantile } from "../../math/quantile.js";
import type { BinomialProblem, FittedCurve } from "./maximize.js";
import { type Quantity, readOff, standardErrorsOf } from "./places.js";
import { type OpenRange, profileRange } from "./profile-range.js";
import type { CurveDraw } from "./resample-curve.js";
import { type Axis, offAxis, rangeOffAxis } from "./scale.js";
import type { PsychometricValue } from "./types.js";

/** What values are read from. */
export interface ValueContext {
  readonly problem: BinomialProblem;
  readonly curve: FittedCurve;
  readonly draws: readonly CurveDraw[];
  readonly axis: Axis;
  readonly level: number;
  /** Unit of the levels, and of distances on the axis. */
  readonly unit: string;
  readonly axisUnit: string;
  readonly n: number;
  /** The data leave slope and places open. */
  readonly open: boolean;
}

/** Every quantity with its intervals. */
export function quantityValues(context: ValueContext, quantities: readonly Quantity[]): readonly PsychometricValue[] {
  const { problem, curve, open } = context;
  const errors = open ? quantities.map(() => null) : standardErrorsOf(problem, curve, quantities);
  return quantities.map((quantity, i) => measured(context, quantity, errors[i]!));
}

/** The same where nothing could be fitted: a spread or lapse that was given stays known. */
export function emptyValues(
  quantities: readonly Quantity[],
  why: Reason,
  known: { readonly unit: string; readonly axisUnit: string; readonly n: number; readonly spread?: number; readonly lapse?: number },
): readonly PsychometricValue[] {
  const { n } = known;
  return quantities.map(({ kind }) => {
    const unit = kind === "lapse" ? "1" : kind === "spread" ? known.axisUnit : known.unit;
    const value = kind === "lapse" ? known.lapse : kind === "spread" ? known.spread : undefined;
    const estimate = value === undefined ? ({ ok: false, why, unit, n } as const) : ({ ok: true, value, unit, n } as const);
    return { estimate, standardError: null, within: [null, null], resampled: null };
  });
}

function measured(context: ValueContext, quantity: Quantity, standardError: number | null): PsychometricValue {
  const { problem, curve, axis, level, n, open } = context;
  const { kind } = quantity;
  const place = kind === "location" || kind === "threshold";
  const unit = kind === "lapse" ? "1" : kind === "spread" ? context.axisUnit : context.unit;
  const raw = readOff(problem, curve, quantity);
  const put = (range: OpenRange): OpenRange => (place ? rangeOffAxis(axis, range) : range);
  const bounds = kind === "lapse" ? problem.lapses : problem.slopes;
  if (!place && bounds[0] === bounds[1]) {
    return { estimate: { ok: true, value: raw, unit, n }, standardError: null, within: [raw, raw], resampled: null };
  }
  // a threshold that lapses put out of reach is no place at all
  const reached = raw !== Number.POSITIVE_INFINITY || kind === "spread" || open;
  const within = reached ? put(profileRange(problem, curve, quantity, level)) : ([null, null] as const);
  const resampled = context.draws.length === 0 ? null : put(drawnRange(context, quantity));
  const value = place ? offAxis(axis, raw) : raw;
  const rest = { standardError: reached ? standardError : null, within, resampled };
  if (!reached) return { estimate: { ok: false, why: "outOfReach", unit, n }, ...rest };
  const [low, high] = within;
  if ((open && kind !== "lapse") || value === null || low === null || high === null) {
    return { estimate: { ok: false, why: "notIdentified", unit, n }, ...rest };
  }
  return { estimate: { ok: true, value, unit, n, interval: [low, high], level }, ...rest };
}

/** Percentiles of the draws on the axis; an end that falls among draws without a value is open. */
function drawnRange({ draws, level }: ValueContext, quantity: Quantity): OpenRange {
  const values = Float64Array.from(draws, ({ problem, curve }) => readOff(problem, curve, quantity)).filter(
    (value) => !Number.isNaN(value),
  );
  values.sort();
  const end = (p: number): number | null => {
    const value = quantile(values, p);
    return Number.isFinite(value) ? value : null;
  };
  return [end((1 - level) / 2), end((1 + level) / 2)];
}
