import { requireLevel, requireOneOf } from "../math/require.js";
import { type FitMovementTimeOptions, fitMovementTime, type MovementTimeFit } from "./fit-movement-time.js";
import type { MovementTimeCell } from "./models/movement-time.js";
import { usableCells } from "./models/usable-cells.js";

/**
 * A law is called worse beyond both bounds. Set by simulation (16 conditions, Shannon's law, noise of 10 to 40 ms): the law that made the cells is
 * called worse in 5 to 7 % of the sets; with the usual 2 for AICc and 1.05 it would be in 8 to 17 %.
 */
const LEAST_DIFFERENCE = 4;
const LIKE_ERRORS = 1.1;
/** Classic forms first: of laws that fit alike the earlier one comes first. */
const LAWS: readonly Pick<FitMovementTimeOptions, "model" | "form">[] = [
  { model: "fitts", form: "shannon" },
  { model: "fitts", form: "fitts" },
  { model: "fitts", form: "welford" },
  { model: "squareRoot" },
  { model: "twoPart", form: "fitts" },
  { model: "twoPart", form: "shannon" },
  { model: "power" },
  { model: "linear" },
];

/** Options of `compareMovementTimeModels`. */
export interface CompareMovementTimeModelsOptions {
  /** Sizes that the laws see, default "nominal". The linear law always sees effective ones. */
  readonly width?: "nominal" | "effective";
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** One law beside the best of the comparison. */
export interface ComparedModel {
  readonly fit: MovementTimeFit;
  /** Leave-one-condition-out error over that of the first; `null` where either has none or the first has error 0. */
  readonly errorRatio: number | null;
  /** AICc less that of the first: below 0 where AICc would prefer this law; `null` where either has none. */
  readonly aiccDifference: number | null;
  /** Whether the cells show the first to be the better law: its error is more than 10 % smaller and its AICc more than 4 lower. */
  readonly worse: boolean;
}

/** Laws of movement time on the same cells, the one that foretells best first. */
export interface ModelComparison {
  /** Sorted by leave-one-condition-out error; laws that could not be judged come last. */
  readonly models: readonly ComparedModel[];
  /** Cells that every law was fitted to. */
  readonly n: number;
  readonly leftOut: MovementTimeFit["leftOut"];
  /**
   * `notDistinguished`: at least one other law is not worse than the first on these cells; `noLinear`: some cell has no effective sizes, so that the
   * linear law is not among the laws; `effectiveSizes`: the linear law saw other sizes than the rest.
   */
  readonly warnings: readonly ("notDistinguished" | "noLinear" | "effectiveSizes")[];
}

/**
 * Fits every law of `fitMovementTime` to the same cells and puts them in the order in which they foretell a condition that they have not seen.
 *
 * r^2 of condition means lies above 0.9 for almost any law that rises, so that it does not choose; leaving each condition out in turn does. A law is
 * called `worse` than the first when its error is more than 10 % larger and its AICc more than 4 higher. Beside a law that meets every time exactly
 * any other that does not is worse. Cost O(cells).
 *
 * @param cells - condition means, see `fitMovementTime`
 * @param options - see `CompareMovementTimeModelsOptions`
 * @returns the laws with their fits and differences; with `notDistinguished` when the cells do not choose
 * @throws TypeError or RangeError if a cell or an option is out of range
 * @see Burnham and Anderson 2002 (AICc; recalled); the bounds are this library's own, by simulation
 * @example
 * ```ts
 * const cells = [50, 25, 12.5].flatMap((width) =>
 *   [100, 200, 400].map((amplitude) => ({ amplitude, width, movementTime: 0.1 + 0.15 * Math.log2(amplitude / width + 1) })),
 * );
 * compareMovementTimeModels(cells).models[0]!.fit.form; // => "shannon"
 * ```
 */
export function compareMovementTimeModels(
  cells: readonly MovementTimeCell[],
  options: CompareMovementTimeModelsOptions = {},
): ModelComparison {
  const { width = "nominal", level = 0.95 } = options;
  requireOneOf("compareMovementTimeModels", "options.width", width, ["nominal", "effective"]);
  requireLevel("compareMovementTimeModels", level);
  const { usable } = usableCells("compareMovementTimeModels", cells, width === "effective");
  const withEffective = usableCells("compareMovementTimeModels", cells, true).usable.length;
  const linear = withEffective === usable.length;
  const fits = LAWS.filter(({ model }) => model !== "linear" || linear)
    .map((law) => fitMovementTime(cells, { ...law, level, width: law.model === "linear" ? "effective" : width }))
    .sort((one, other) => errorOf(one) - errorOf(other) || 0);
  const first = fits[0]!;
  const models = fits.map((fit) => compareWithFirst(fit, first));
  const warnings: ModelComparison["warnings"][number][] = [];
  if (models.slice(1).some(({ fit, worse }) => fit.quality !== null && !worse)) warnings.push("notDistinguished");
  if (!linear) warnings.push("noLinear");
  else if (width === "nominal") warnings.push("effectiveSizes");
  return { models, n: usable.length, leftOut: first.leftOut, warnings };
}

function compareWithFirst(fit: MovementTimeFit, first: MovementTimeFit): ComparedModel {
  const own = fit.quality;
  const best = first.quality;
  const aiccDifference = own === null || best === null || own.aicc === null || best.aicc === null ? null : own.aicc - best.aicc;
  const ratio = errorOf(fit) / errorOf(first); // no number where both are 0 or absent
  const errorRatio = Number.isFinite(ratio) ? ratio : null;
  const beyondBoth = errorRatio !== null && aiccDifference !== null && errorRatio > LIKE_ERRORS && aiccDifference > LEAST_DIFFERENCE;
  // an exact law has no AICc
  const besideExact = errorOf(first) === 0 && errorOf(fit) > 0;
  return { fit, errorRatio, aiccDifference, worse: beyondBoth || (besideExact && own !== null) };
}

function errorOf(fit: MovementTimeFit): number {
  return fit.quality?.leaveOneOutError ?? Number.POSITIVE_INFINITY;
}
