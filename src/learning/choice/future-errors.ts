import { curveColumns } from "../curve/columns.js";
import { curveBounds } from "../curve/curve-bounds.js";
import { curveModel } from "../curve/curve-model.js";
import type { CurveErrors } from "../curve/error-law.js";
import { fitCurve } from "../curve/fit-curve.js";
import type { LearningLaw, LearningLawName, PracticeSeries } from "../types.js";

/** Values beyond its parameters that every law has at the first cut. */
const SPARE = 2;
/** Share of the series that is foretold from each cut. */
const AHEAD = 0.25;

export interface FutureTask {
  readonly series: PracticeSeries;
  readonly laws: readonly (LearningLawName | LearningLaw)[];
  readonly errors: CurveErrors;
  readonly direction: "falling" | "rising" | "either";
  /** Most cuts. */
  readonly origins: number;
  /** Parameters of the richest law that the whole series could be fitted with. */
  readonly richest: number;
}

/** Error of each law in foretelling the values after each cut from those before it; all laws see the same cuts. */
export function futureErrors(where: string, task: FutureTask): { readonly errors: readonly (number | null)[]; readonly foretold: number } {
  const { series, laws } = task;
  const n = series.value.length;
  const cuts = cutsOf(n, task);
  const ahead = Math.max(1, Math.round(AHEAD * n));
  const foretold = cuts.reduce((sum, cut) => sum + Math.min(ahead, n - cut), 0);
  if (foretold === 0) return { errors: laws.map(() => null), foretold };
  return { errors: laws.map((law) => futureError(where, task, law, cuts, ahead)), foretold };
}

// from half of the series on, spread evenly, the last one a whole stretch before the end where there is room for it
function cutsOf(n: number, { origins, richest }: FutureTask): number[] {
  const first = Math.max(Math.ceil(n / 2), richest + SPARE);
  const last = Math.min(n - 1, Math.max(first, n - Math.max(1, Math.round(AHEAD * n))));
  if (origins === 0 || first > last) return [];
  const count = Math.min(origins, last - first + 1);
  return Array.from({ length: count }, (_, i) => (count === 1 ? last : Math.round(first + (i * (last - first)) / (count - 1))));
}

function futureError(
  where: string,
  { series, errors, direction }: FutureTask,
  law: LearningLawName | LearningLaw,
  cuts: readonly number[],
  ahead: number,
): number | null {
  const { practice, value, trials } = series;
  const model = curveModel(law);
  const own = typeof law === "string" ? undefined : law;
  const until = (column: ArrayLike<number>, cut: number): number[] => Array.from({ length: cut }, (_, i) => column[i]!);
  let squares = 0;
  let weights = 0;
  for (const cut of cuts) {
    const known = {
      practice: until(practice, cut),
      value: until(value, cut),
      ...(trials === undefined ? {} : { trials: until(trials, cut) }),
    };
    const columns = curveColumns(where, known);
    const limits = curveBounds(where, model, own, columns, { bounds: {}, direction, errors });
    const fitting = fitCurve(columns, model, errors, limits, { robust: false, level: 0.95, starts: own?.starts ?? [], profile: false });
    if (typeof fitting === "string") return null;
    const { parameters } = fitting.curve.solution;
    for (let i = cut; i < Math.min(cut + ahead, value.length); i++) {
      const told = model.value(practice[i]!, parameters);
      const difference = errors === "lognormal" ? Math.log(value[i]! / told) : value[i]! - told;
      const weight = trials?.[i] ?? 1;
      squares += weight * difference * difference;
      weights += weight;
    }
  }
  const error = Math.sqrt(squares / weights);
  return Number.isFinite(error) ? error : null;
}
