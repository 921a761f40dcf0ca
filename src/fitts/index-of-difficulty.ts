import { requireInteger, requireNumber, requireOneOf } from "../math/require.js";

/** Options of `indexOfDifficulty`. */
export interface IndexOfDifficultyOptions {
  /** Formula, default `"shannon"`; the others are for comparison with older work. Indices of different forms do not mix. */
  readonly form?: "shannon" | "fitts" | "welford" | "squareRoot";
  /** Submovements that `"squareRoot"` assumes, a whole number of at least 1, default 2; the other forms do not use it. More of them flatten the growth toward that of a logarithm. */
  readonly submovements?: number;
}

const WHERE = "indexOfDifficulty";

/**
 * How hard it is to reach a target of width W over a distance A: the number that movement time grows with.
 *
 * `shannon`: log2(A/W + 1), bit, never negative. `fitts`: log2(2A/W), bit. `welford`: log2(A/W + 1/2), bit. The last two are negative where
 * A < W/2, when the movement begins on the target; they are given as they are. `squareRoot`: (A/W)^(1/n) with n submovements, without a unit.
 * Only the ratio counts. For a target that is no circle see `targetWidth`; with endpoints at hand, put the mean distance covered and
 * `effectiveWidth` in place of A and W.
 *
 * @param amplitude - distance from start to target centre, at least 0
 * @param width - extent of the target, above 0, in the same unit
 * @param options - see `IndexOfDifficultyOptions`
 * @returns the index; higher is harder
 * @throws TypeError if an argument is no number; RangeError if one is out of range, A/W is no finite number, or A = 0 with `fitts`, which has no finite value there
 * @see MacKenzie 1989 (opening read: the Shannon form), Fitts 1954, Welford 1968 (recalled), Meyer et al. 1988 (summary read: the square root)
 * @example
 * ```ts
 * indexOfDifficulty(280, 40); // => 3
 * indexOfDifficulty(280, 40, { form: "fitts" }); // => 3.8074
 * ```
 */
export function indexOfDifficulty(amplitude: number, width: number, options: IndexOfDifficultyOptions = {}): number {
  const { form = "shannon", submovements = 2 } = options;
  requireNumber(WHERE, "amplitude", amplitude, 0);
  requireNumber(WHERE, "width", width, 0, Number.POSITIVE_INFINITY, true);
  requireOneOf(WHERE, "options.form", form, ["shannon", "fitts", "welford", "squareRoot"]);
  requireInteger(WHERE, "options.submovements", submovements, 1);
  const ratio = amplitude / width;
  requireNumber(WHERE, "amplitude / width", ratio);
  if (form === "shannon") return Math.log2(ratio + 1);
  if (form === "welford") return Math.log2(ratio + 0.5);
  if (form === "squareRoot") return ratio ** (1 / submovements);
  if (ratio === 0)
    throw new RangeError(`${WHERE}: amplitude must be above 0 with options.form "fitts" (minus infinity at 0), got ${amplitude}`);
  return 1 + Math.log2(ratio);
}
