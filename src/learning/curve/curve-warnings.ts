import { chiSquareQuantile } from "../../math/chi-square-quantile.js";
import type { CurveColumns } from "./columns.js";
import type { CurveParameter, LearningCurveWarning } from "./curve-types.js";
import type { FittedCurve } from "./fitted-curve.js";

/** Sessions that a law with one, two, three or four parameters should have. */
const LEAST_SESSIONS = [2, 4, 6, 10] as const;
/** Ranges of practice, from the first value on, beyond which a law is stretched. */
const FAR = 1.5;

/** Standard normal value that chance exceeds once in twenty. */
const ONE_SIDED = 1.6448536269514722;

/** Whether an amount of practice lies farther out than the data carry. */
export function isFar({ practice, n }: CurveColumns, at: number): boolean {
  const first = practice[0]!;
  const last = practice[n - 1]!;
  return at > first + FAR * (last - first) || at < first - (FAR - 1) * (last - first);
}

export interface WarningTask {
  readonly curve: FittedCurve;
  readonly parameters: Readonly<Record<string, CurveParameter>>;
  readonly hasAsymptote: boolean;
  readonly autocorrelated: boolean;
  readonly robust: boolean;
  /** Amounts of practice that were asked for or came out. */
  readonly asked: readonly number[];
}

export function curveWarnings({ curve, parameters, hasAsymptote, autocorrelated, robust, asked }: WarningTask): LearningCurveWarning[] {
  const { columns, moving, bound, errors, solution, df, model } = curve;
  const warnings: LearningCurveWarning[] = [];
  if (columns.distinct < (LEAST_SESSIONS[moving.length - 1] ?? 10)) warnings.push("fewSessions");
  if (autocorrelated) warnings.push("autocorrelated");
  if (hasAsymptote && !parameters.a!.ok) warnings.push("asymptoteNotIdentified");
  if (bound.length > 0) warnings.push("atBound");
  if (model.name !== "own" && moving.includes(1) && spansZero(parameters.b!)) warnings.push("noGain");
  if (asked.some((amount) => isFar(columns, amount))) warnings.push("extrapolated");
  if (errors === "binomial" && solution.residualSum > chiSquareQuantile(0.95, df)) warnings.push("overdispersed");
  if (errors === "normal" && !robust && !curve.exact && spreadFollowsLevel(curve)) warnings.push("unequalSpread");
  if (!solution.converged) warnings.push("notConverged");
  return warnings;
}

function spansZero(b: CurveParameter): boolean {
  const [low, high] = (b.ok ? b.interval : b.ends) ?? [null, null];
  return (low === null || low <= 0) && (high === null || high >= 0);
}

// studentised score test of the squared residuals on the level (Breusch and Pagan 1979, Koenker 1981, recalled)
function spreadFollowsLevel({ columns, fitted }: FittedCurve): boolean {
  const { n, value, weight } = columns;
  const share = 1 / n;
  let level = 0;
  let square = 0;
  for (let i = 0; i < n; i++) {
    level += fitted[i]! * share;
    square += weight[i]! * (value[i]! - fitted[i]!) ** 2 * share;
  }
  let both = 0;
  let levels = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const high = fitted[i]! - level;
    const wide = weight[i]! * (value[i]! - fitted[i]!) ** 2 - square;
    both += high * wide;
    levels += high * high;
    squares += wide * wide;
  }
  return both > 0 && n * both * both > ONE_SIDED * ONE_SIDED * levels * squares;
}
