import type { Estimate } from "../../math/estimate.js";
import { lagAt } from "./curve-laws.js";
import type { CurveParameter } from "./curve-types.js";
import { type FittedCurve, gradientOf, varianceAlong } from "./fitted-curve.js";

/** An interval on a logarithmic scale that spans more than this factor says nothing. */
const WIDEST = 1e12;

/** Half-life, or the practice at which half of the gain is made. */
export function halfLife(curve: FittedCurve, parameters: Readonly<Record<string, CurveParameter>>, unit: string): Estimate {
  const { model } = curve;
  switch (model.name) {
    case "exponential2":
    case "exponential3":
      return falling(curve, parameters.c!, unit, (c) => Math.LN2 / c);
    case "power2":
    case "power3":
      return falling(curve, parameters.c!, unit, (c) => 2 ** (1 / c));
    case "power4":
      return byDelta(curve, parameters, unit, ([, , c, e]) => (1 + e!) * 2 ** (1 / c!) - e!);
    case "combined":
      return byDelta(curve, parameters, unit, halfOfCombined);
    case "delayedExponential":
      return byDelta(curve, parameters, unit, ([, , c, d]) => 1 + Math.log(d! + 2) / c!);
    default:
      return { ok: false, why: "notIdentified", unit, n: curve.columns.n };
  }
}

/** Share of the gain since the first value that is still to come. */
export function remainingGain(curve: FittedCurve, parameters: Readonly<Record<string, CurveParameter>>): Estimate {
  const { model, columns } = curve;
  const { n, practice } = columns;
  const law = model.builtIn;
  const none: Estimate = { ok: false, why: "notIdentified", unit: "1", n };
  if (law === undefined || law.shape.length === 0) return none;
  const first = practice[0]!;
  const last = practice[n - 1]!;
  if (law.lag !== undefined) {
    const { a } = parameters;
    if (a !== undefined && !a.ok) return none;
    const between = lagAt(law.lag, last) - lagAt(law.lag, first);
    return falling(curve, parameters.c!, "1", (c) => Math.exp(-c * between));
  }
  const look = new Float64Array(3);
  const share = (all: ArrayLike<number>): number => {
    const shape = [all[2]!, all[3]!];
    law.at(first, shape, look);
    const start = look[0]!;
    law.at(last, shape, look);
    return look[0]! / start;
  };
  return byDelta(curve, parameters, "1", share);
}

// a quantity that falls with c has the interval of c, turned round; it closes for a c that is only known to be large
function falling(
  { columns: { n }, solution, bound, level }: FittedCurve,
  c: CurveParameter,
  unit: string,
  of: (c: number) => number,
): Estimate {
  const none: Estimate = { ok: false, why: "notIdentified", unit, n };
  const ends = c.ok ? c.interval : c.ends;
  const low = ends?.[0] ?? null;
  const value = of(solution.parameters[2]!);
  if (!Number.isFinite(value) || bound.includes(2)) return none;
  if (c.ok && ends === undefined) return { ok: true, value, unit, n };
  if (low === null) return none;
  const high = ends?.[1] ?? null;
  const interval: [number, number] = [of(high ?? Number.POSITIVE_INFINITY), of(low)];
  return Number.isFinite(interval[1]) ? { ok: true, value, unit, n, interval, level } : none;
}

// delta method on the logarithm
function byDelta(
  curve: FittedCurve,
  parameters: Readonly<Record<string, CurveParameter>>,
  unit: string,
  quantity: (all: ArrayLike<number> & Iterable<number>) => number,
): Estimate {
  const { columns, solution, reach, level } = curve;
  const { n } = columns;
  const none: Estimate = { ok: false, why: "notIdentified", unit, n };
  const { a, b } = parameters;
  if (a?.ok === false || b?.ok === false) return none;
  const value = quantity(solution.parameters);
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) return none;
  const gradient = gradientOf(curve, (at) => Math.log(quantity(at as never)));
  const half = Math.exp(reach * Math.sqrt(varianceAlong(curve, gradient)));
  if (!(half < WIDEST)) return none;
  return { ok: true, value, unit, n, interval: [value / half, value * half], level };
}

function halfOfCombined(all: ArrayLike<number>): number {
  const c = all[2]!;
  const d = all[3]!;
  const fall = (practice: number): number => c * Math.log(practice) + d * (practice - 1);
  let low = 1;
  let high = 2;
  while (fall(high) < Math.LN2 && high < 1e300) high *= 2;
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (fall(middle) < Math.LN2) low = middle;
    else high = middle;
  }
  return high < 1e300 ? (low + high) / 2 : Number.POSITIVE_INFINITY;
}
