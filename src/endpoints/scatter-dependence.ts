import type { Reason } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { requireColumn, requireLevel, show } from "../math/require.js";
import { dependenceDesigns } from "./inference/dependence-design.js";
import { type BiasDependence, fitDependence, pickDesign, type SpreadDependence } from "./inference/dependence-fit.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import type { Endpoints } from "./types.js";

/** What each movement was like, as columns as long as the endpoints. */
export interface MovementPredictors {
  /** Distance from start to target, the endpoints' length unit, above 0. */
  readonly amplitude: Float64Array;
  /** Direction from start to target on the screen, radians; whole turns do not matter. */
  readonly direction: Float64Array;
}

/** Options of `scatterDependence`. */
export interface ScatterDependenceOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Raised, they grow. */
  readonly level?: number;
}

/** How endpoints follow amplitude and direction. */
export type ScatterDependence =
  | {
      readonly ok: true;
      readonly n: number;
      readonly unit: string;
      readonly level: number;
      /** Amplitude at which `typical` holds. */
      readonly meanAmplitude: number;
      /** Mean error; `null` along an axis on which all errors are equal. The slope of `along` is the range effect: below 0, long movements fall short. */
      readonly bias: { readonly along: BiasDependence | null; readonly across: BiasDependence | null };
      /** Size of the deviations from the fitted mean, |deviation - median|; for normal scatter 0.80 of its SD. */
      readonly spread: { readonly along: SpreadDependence | null; readonly across: SpreadDependence | null };
      /**
       * `few`: under 50 movements, which show gross effects on the spread only; `noDirections`: under 30 movements, or directions that are too few
       * or bound to the amplitudes, so that a slope may be an effect of direction; `noSecondHarmonic`: three or four directions do not
       * show it; `oneAmplitude`: all amplitudes are alike.
       */
      readonly warnings: readonly ("few" | "noDirections" | "noSecondHarmonic" | "oneAmplitude")[];
    }
  /** `tooFew`: under ten movements; `notIdentified`: one amplitude, and too few directions; `noSpread`: all endpoints coincide. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

const LEAST = 10;
/** With fewer movements the four terms of direction would leave too little to judge them by. */
const LEAST_FOR_DIRECTION = 30;
const ENOUGH = 50;

/**
 * Does bias or spread depend on how far the movement went, or in which direction?
 *
 * Least squares on both at once, so that neither passes for the other: e = m + b (A - mean A) + a1 cos(d - f1) + a2 cos(2 (d - f2)), for the error
 * along and across, and again for the size of the deviations from that fit (Glejser's test, sizes taken from the median). Slopes carry Student
 * intervals, harmonics joint F tests. Turning all directions turns the phases and changes nothing else. Cost O(n).
 *
 * @param endpoints - offsets from the target's centre in the movement's own frame: x along (positive beyond), y across (positive to the left of travel); at least ten
 * @param predictors - amplitude and direction of each movement
 * @param options - see `ScatterDependenceOptions`
 * @returns bias and spread, along and across, each against amplitude and direction, and warnings; not ok when nothing can be told
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Glejser 1969; Im 2000; Machado and Santos Silva 2000 (recalled); harmonics of a circular predictor: textbook
 * @example
 * ```ts
 * const amplitude = Float64Array.of(100, 200, 300, 400, 500, 600, 150, 250, 350, 450, 550, 650);
 * const along = Float64Array.of(4, 2, 1, -1, -2, -6, 5, 1, 0, -2, -3, -5);
 * const across = Float64Array.of(1, -1, 2, 0, -2, 1, 0, 1, -3, 2, -1, 1);
 * const result = scatterDependence({ x: along, y: across }, { amplitude, direction: new Float64Array(12) });
 * const range = result.ok ? result.bias.along?.amplitude?.slope : undefined;
 * range?.ok && range.interval![1] < 0; // => true
 * ```
 */
export function scatterDependence(
  endpoints: Endpoints,
  predictors: MovementPredictors,
  options: ScatterDependenceOptions = {},
): ScatterDependence {
  const { unit = "px", level = 0.95 } = options;
  requireEndpoints("scatterDependence", "endpoints", endpoints);
  requireLevel("scatterDependence", level);
  const n = endpoints.x.length;
  requirePredictors(predictors, n);
  const { amplitude, direction } = predictors;
  if (n < LEAST) return { ok: false, why: "tooFew", unit, n };
  const meanAmplitude = meanAndSd(amplitude).mean;
  // everything in a power of two near the largest length: exact, and no square overflows or vanishes
  const scale = 2 ** Math.floor(Math.log2([endpoints.x, endpoints.y, amplitude].reduce(largest, 0)));
  const scaled = (column: Float64Array) => column.map((value) => value / scale);
  const designs = dependenceDesigns(scaled(amplitude), meanAmplitude / scale, direction, n < LEAST_FOR_DIRECTION ? 0 : 2);
  const design = pickDesign(designs, scaled(endpoints.x));
  if (design === undefined) return { ok: false, why: "notIdentified", unit, n };
  const along = fitDependence(design, scaled(endpoints.x), { unit, level, scale });
  const across = fitDependence(design, scaled(endpoints.y), { unit, level, scale });
  if (along.bias === null && across.bias === null) return { ok: false, why: "noSpread", unit, n };
  const warnings: ("few" | "noDirections" | "noSecondHarmonic" | "oneAmplitude")[] = n < ENOUGH ? ["few"] : [];
  if (design.harmonics < 2) warnings.push(design.harmonics === 0 ? "noDirections" : "noSecondHarmonic");
  if (!design.amplitude) warnings.push("oneAmplitude");
  return {
    ok: true,
    n,
    unit,
    level,
    meanAmplitude,
    bias: { along: along.bias, across: across.bias },
    spread: { along: along.spread, across: across.spread },
    warnings,
  };
}

function largest(size: number, column: Float64Array): number {
  return column.reduce((most, value) => Math.max(most, Math.abs(value)), size);
}

function requirePredictors(predictors: MovementPredictors, n: number): void {
  if (predictors === null || typeof predictors !== "object") {
    throw new TypeError(`scatterDependence: predictors must be columns amplitude and direction, got ${show(predictors)}`);
  }
  requireColumn("scatterDependence", "predictors.amplitude", predictors.amplitude, n);
  requireColumn("scatterDependence", "predictors.direction", predictors.direction, n);
  const bad = predictors.amplitude.findIndex((value) => !(value > 0));
  if (bad >= 0) {
    throw new RangeError(`scatterDependence: predictors.amplitude[${bad}] must be above 0, got ${predictors.amplitude[bad]}`);
  }
}
