import type { Estimate, Reason } from "../math/estimate.js";
import { requireLevel, requireOneOf, show } from "../math/require.js";
import { type Coefficient, describeCoefficients } from "./models/describe-coefficients.js";
import { type FitQuality, fitQuality } from "./models/fit-quality.js";
import { fitTerms, type TermsFit } from "./models/fit-terms.js";
import { type ModelTerms, modelTerms } from "./models/model-terms.js";
import type {
  CoefficientName,
  MovementTimeCell,
  MovementTimeForm,
  MovementTimeModel,
  MovementTimeWarning,
} from "./models/movement-time.js";
import { movementTimeWarnings } from "./models/movement-time-warnings.js";
import { type PredictedTime, timePredictor } from "./models/time-predictor.js";
import { requireSizes, type UsableCells, usableCells } from "./models/usable-cells.js";

/** Points of the band, ends included. */
const BAND_POINTS = 21;
const MODELS: readonly MovementTimeModel[] = ["fitts", "twoPart", "squareRoot", "linear", "power"];
const FORMS: readonly MovementTimeForm[] = ["shannon", "fitts", "welford"];

/** Options of `fitMovementTime`. */
export interface FitMovementTimeOptions {
  /** The law, see `MovementTimeModel`; default "fitts". */
  readonly model?: MovementTimeModel;
  /** Formulation of the laws `fitts` and `twoPart`, default "shannon"; the others ignore it. */
  readonly form?: MovementTimeForm;
  /** Nominal sizes, or effective ones (effective width, and effective amplitude where a cell has it). Default "nominal"; for `linear` "effective", the only choice. */
  readonly width?: "nominal" | "effective";
  /** Confidence level of every interval, above 0 and below 1, default 0.95. Higher makes them wider. */
  readonly level?: number;
  /** Sizes to foretell the time at, in the sense of `width`; default none. Only within the measured range. */
  readonly predict?: readonly { readonly amplitude: number; readonly width: number }[];
}

/** A law of movement time fitted to cells. */
export interface MovementTimeFit {
  readonly model: MovementTimeModel;
  /** `null` for a law that has no forms. */
  readonly form: MovementTimeForm | null;
  readonly width: "nominal" | "effective";
  readonly level: number;
  /** Cells used, conditions (nominal amplitude and width) and people among them. */
  readonly n: number;
  readonly conditions: number;
  readonly people: number;
  /** Cells left out of a fit to effective sizes because they have none (or an amplitude that is not above 0). */
  readonly leftOut: { readonly noEffectiveWidth: number; readonly noEffectiveAmplitude: number };
  /** By the letters of the law: a and b; a, b1 and b2; a and k; c, p and q. `tooFew` or `notIdentified` when the law could not be fitted. */
  readonly coefficients: Readonly<Partial<Record<CoefficientName, Coefficient>>>;
  /** `null` when the law could not be fitted. */
  readonly quality: FitQuality | null;
  /** Observed minus fitted time of each cell given, seconds; `null` for those left out. */
  readonly residuals: readonly (number | null)[];
  /** Measured range of the predictor of a law with one (bit, or a plain ratio); `null` for two. */
  readonly range: { readonly low: number; readonly high: number; readonly unit: string } | null;
  /** The law over that range, at evenly spaced values of the predictor; empty for a law with two. */
  readonly band: readonly (PredictedTime & { readonly predictor: number })[];
  /** One for each of `options.predict`, with the interval for one more cell; `notIdentified` outside the measured range. */
  readonly predictions: readonly Estimate[];
  readonly warnings: readonly MovementTimeWarning[];
}

/**
 * Fits a law of movement time to condition means: how much longer a movement takes when it goes farther or to a smaller target.
 *
 * Ordinary least squares, every cell counting alike; the power law on logarithms. Laws: fitts MT = a + b ID, twoPart MT = a + b1 log2(A + cW) - b2 log2 W,
 * squareRoot MT = a + b sqrt(A/W), linear MT = a + k A/We, power MT = c A^p W^q. Fit one person at a time, and read `warnings`. Cost O(cells).
 *
 * @param cells - condition means, such as the `cells` of `throughput`
 * @param options - see `FitMovementTimeOptions`
 * @returns coefficients with intervals, quality, residuals, band and warnings; coefficients are not ok with too few cells or predictors that do not vary
 * @throws TypeError or RangeError if a cell or an option is out of range
 * @see Fitts 1954 (table read as reprinted); Welford 1968, Schmidt et al. 1979, Meyer et al. 1988, MacKenzie 1992 (recalled); intervals: textbook, normal residuals assumed
 * @example
 * ```ts
 * const cells = [
 *   { amplitude: 100, width: 50, movementTime: 0.39 },
 *   { amplitude: 100, width: 12.5, movementTime: 0.62 },
 *   { amplitude: 400, width: 50, movementTime: 0.64 },
 *   { amplitude: 400, width: 12.5, movementTime: 0.91 },
 * ];
 * const { coefficients } = fitMovementTime(cells);
 * coefficients.b; // => { ok: true, value: 0.1503, unit: "s/bit", n: 4, … }
 * ```
 */
export function fitMovementTime(cells: readonly MovementTimeCell[], options: FitMovementTimeOptions = {}): MovementTimeFit {
  const { model = "fitts", form = "shannon", level = 0.95, predict = [] } = options;
  const { width = model === "linear" ? "effective" : "nominal" } = options;
  requireOptions({ model, form, width, level, predict });
  const terms = modelTerms(model, form);
  const { usable, leftOut } = usableCells("fitMovementTime", cells, width === "effective");
  const names = usable.map(({ cell }) => `${cell.amplitude} ${cell.width}`);
  const conditions = new Set(names).size;
  const people = new Set(usable.map(({ cell }) => cell.person)).size;
  const n = usable.length;
  const result = fitTerms(terms, usable);
  const fit = typeof result === "string" ? undefined : result;
  const coefficients = describeCoefficients(terms, result, n, level);
  return {
    model,
    form: model === "fitts" || model === "twoPart" ? form : null,
    width,
    level,
    n,
    conditions,
    people,
    leftOut,
    coefficients,
    quality: fit === undefined ? null : fitQuality(terms, fit, names),
    residuals: alignResiduals(cells.length, usable, fit),
    ...drawBand(terms, fit, level),
    predictions: foretell(terms, result, n, level, predict),
    warnings: movementTimeWarnings({ model, form, terms, cells: usable, conditions, people, fit, intercept: coefficients.a }),
  };
}

function requireOptions({ model, form, width, level, predict }: Required<FitMovementTimeOptions>): void {
  const where = "fitMovementTime";
  requireOneOf(where, "options.model", model, MODELS);
  requireOneOf(where, "options.form", form, FORMS);
  requireOneOf(where, "options.width", width, model === "linear" ? ["effective"] : ["nominal", "effective"]);
  requireLevel(where, level);
  if (!Array.isArray(predict)) throw new TypeError(`${where}: options.predict must be an array, got ${show(predict)}`);
  for (const [i, sizes] of predict.entries()) requireSizes(where, `options.predict[${i}]`, sizes);
}

// residuals in the places of the cells given
function alignResiduals(length: number, usable: UsableCells["usable"], fit: TermsFit | undefined): (number | null)[] {
  const residuals = new Array<number | null>(length).fill(null);
  if (fit !== undefined) for (const [i, { index }] of usable.entries()) residuals[index] = fit.times[i]! - fit.fitted[i]!;
  return residuals;
}

function drawBand(terms: ModelTerms, fit: TermsFit | undefined, level: number): Pick<MovementTimeFit, "range" | "band"> {
  if (fit === undefined || fit.columns.length !== 1) return { range: null, band: [] };
  const [low, high] = endsOf(fit.columns[0]!);
  const predicted = timePredictor(terms, fit, level);
  const band = Array.from({ length: BAND_POINTS }, (_, k) => {
    const predictor = k < BAND_POINTS - 1 ? low + ((high - low) * k) / (BAND_POINTS - 1) : high;
    return { predictor, ...predicted([predictor]) };
  });
  return { range: { low, high, unit: terms.unit }, band };
}

function foretell(
  terms: ModelTerms,
  fit: TermsFit | Reason,
  n: number,
  level: number,
  predict: FitMovementTimeOptions["predict"] & object,
): Estimate[] {
  if (typeof fit === "string") return predict.map(() => ({ ok: false, why: fit, unit: "s", n }));
  const ends = fit.columns.map(endsOf);
  const predicted = timePredictor(terms, fit, level);
  return predict.map(({ amplitude, width }) => {
    const values = terms.at(amplitude, width);
    const { value, prediction } = predicted(values);
    // the cells say nothing of what lies beyond them: laws that fit them alike go apart there
    const measured = ends.every(([low, high], j) => values[j]! >= low && values[j]! <= high);
    if (!measured || !Number.isFinite(prediction[1])) return { ok: false, why: "notIdentified", unit: "s", n };
    return { ok: true, value, unit: "s", n, interval: prediction, level };
  });
}

function endsOf(values: readonly number[]): [number, number] {
  return [values.reduce((least, value) => Math.min(least, value)), values.reduce((most, value) => Math.max(most, value))];
}
