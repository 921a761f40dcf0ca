import { create, derivativeDependencies, type MathNode } from "mathjs/number";
import type { LearningLaw } from "../learning/types.js";
import { show } from "../math/require.js";
import { compileLaw } from "./program/compile-law.js";
import { createExpressionGraph } from "./program/expression-graph.js";
import { readFormula, refusal, requireName } from "./text/read-formula.js";
import { readStarts } from "./text/read-starts.js";
import { toGraph } from "./text/to-graph.js";

/** Options of `lawFromText`. */
export interface LawFromTextOptions {
  /** Name of the practice in the text, default "N". Every other name is a parameter. */
  readonly practice?: string;
  /**
   * Where the search begins: a value for each parameter, or a list of such records for several starts. Parameters without one start at 1, or at the
   * bound nearest to it. A start of the right sign and size is worth more than many starts.
   */
  readonly starts?: Readonly<Record<string, number>> | readonly Readonly<Record<string, number>>[];
  /** Least value of a parameter, by name; default none. A fit that ends on a bound has no standard error for that parameter. */
  readonly lower?: Readonly<Record<string, number>>;
  /** Largest value of a parameter, by name; default none. */
  readonly upper?: Readonly<Record<string, number>>;
}

/**
 * Makes a law of practice from a formula in ordinary notation, such as "a + b * exp(-c * (N - 1))".
 *
 * Allowed are numbers, + - * / ^ (from right to left, before a minus sign), brackets, pi, exp, log (natural), log10, sqrt, pow, sin, cos, atan and
 * tanh. Every other name is a parameter, in the order of first appearance; `e` too, so write exp(...) for powers of Euler's number. A product needs
 * its *. The text is checked piece by piece, differentiated by mathjs, and run as a list of arithmetic steps; it is never evaluated as code.
 * At most 400 characters and 12 parameters. Make a law once and keep it: that takes some milliseconds, using it fractions of a microsecond.
 *
 * @param text - the formula
 * @param options - see `LawFromTextOptions`
 * @returns the law with its starts, bounds, value and exact derivatives, for `fitLearningCurve` and `compareLearningCurves`
 * @throws TypeError if the text or an option is of a wrong kind; RangeError, with the place in the text, if it holds anything not allowed
 * @see mathjs 15 (derivative); rules of differentiation: textbook
 * @example
 * ```ts
 * const law = lawFromText("a + b * exp(-c * (N - 1))", { starts: { a: 0.5, b: 0.4, c: 0.1 }, lower: { c: 0 } });
 * law.parameters; // => ["a", "b", "c"]
 * law.value(1, [0.5, 0.4, 0.1]); // => 0.9
 * ```
 */
export function lawFromText(text: string, options: LawFromTextOptions = {}): LearningLaw {
  const where = "lawFromText";
  const { practice = "N", starts = {}, lower = {}, upper = {} } = options;
  if (typeof text !== "string") throw new TypeError(`${where}: text must be a formula, got ${show(text)}`);
  requireName(where, "options.practice", practice);
  const { parameters, plain, places } = readFormula(where, text, practice);
  const names = parameters.map((_, j) => `p${j}`);
  const { parse, derivative } = create({ ...derivativeDependencies });
  const graph = createExpressionGraph();
  let tree: MathNode;
  try {
    tree = parse(plain);
  } catch (error) {
    const { char } = error as { char?: unknown };
    if (typeof char !== "number") throw error;
    throw refusal(where, text, places[char - 1] ?? text.trimEnd().length, "must be one formula");
  }
  try {
    const value = toGraph(tree, graph);
    // mathjs's own simplification takes 25 times as long and rewrites what the derivatives share with the value
    const slopes = names.map((name) => toGraph(derivative(tree, name, { simplify: false }), graph));
    return {
      formula: text,
      parameters,
      ...readStarts(where, parameters, starts, lower, upper),
      ...compileLaw(graph, parameters.length, value, slopes),
    };
  } catch (error) {
    if (error instanceof RangeError && !error.message.startsWith(where)) throw new RangeError(`${where}: text ${error.message}`);
    throw error;
  }
}
