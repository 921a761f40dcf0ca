// The whole message of every refusal of an argument that the tests of the functions themselves do not spell out.
import { describe, expect, it } from "vitest";
import { compare } from "../../src/learning/compare.js";
import { compareLearningCurves } from "../../src/learning/compare-learning-curves.js";
import { detectPlateau } from "../../src/learning/detect-plateau.js";
import { fitLearningCurve } from "../../src/learning/fit-learning-curve.js";
import { practiceRetention } from "../../src/learning/practice-retention.js";
import { practiceTransfer } from "../../src/learning/practice-transfer.js";
import { reliability } from "../../src/learning/reliability.js";
import { sessionStructure } from "../../src/learning/session-structure.js";

type Case = readonly [message: string, first: unknown, options?: unknown, second?: unknown];

function refuses(
  name: string,
  run: (first: never, options: never, second: never) => unknown,
  cases: readonly Case[],
  kind: typeof Error,
): void {
  it.each(cases)(`${name}: %s`, (message, first, options = {}, second = undefined) => {
    const call = (): unknown => run(first as never, options as never, second as never);
    expect(call).toThrow(kind);
    expect(call).toThrow(new kind(`${name}: ${message}`));
  });
}

const TYPE = TypeError as typeof Error;
const RANGE = RangeError as typeof Error;
const LAW_NAMES = ["constant", "linear", "power2", "power3", "power4", "exponential2", "exponential3", "combined", "delayedExponential"]
  .map((name) => `"${name}"`)
  .join(", ");
const good = { practice: [1, 2, 3], value: [3, 2, 1] };
const own = { formula: "k", parameters: ["k"], starts: [[1]], lower: [0], upper: [9], value: () => 1, gradient: () => {} };

describe("a message names the argument, its value and what is allowed", () => {
  const comparing = (first: never, options: never, second: never): unknown => compare(first, second ?? ([1, 2] as never), options);
  refuses(
    "compare",
    comparing,
    [
      ["after must be a list of numbers, got an object of type Object", [1], {}, { length: 2 }],
      ['after[0] must be a number, got "1"', [1], {}, ["1"]],
      ['before[0][1] must be a number, got "x"', [[1, "x"]]],
      ["before[1] must be a list of numbers, got an object of type Object", [[1], {}]],
      ["options.paired must be true or false, got 1", [1], { paired: 1 }],
      ['options.level must be a number, got "high"', [1], { level: "high" }],
      ['options.worthwhile must be a number, got "2"', [1], { worthwhile: "2" }],
      ["options.autocorrelation must be a number, got null", [1], { autocorrelation: null }],
      ['options.permutations must be a whole number, got "99"', [1], { permutations: "99" }],
      ['options.seed must be a whole number, got "1"', [1], { seed: "1" }],
    ],
    TYPE,
  );
  refuses(
    "compare",
    comparing,
    [
      ['after[1] must be above 0 where options.kind is "percent", got -1', [1], {}, [1, -1]],
      ["after[0] must lie within -1e100 and 1e100, got -2e+100", [1], { kind: "difference" }, [-2e100]],
      ["before[0] must hold at least one trial, got none", [[], [1]]],
      ["after must have 1 sessions like before where options.paired is true, got 2", [1], { paired: true }],
      ['options.kind must be one of "difference", "percent", got "ratio"', [1], { kind: "ratio" }],
      ['options.better must be one of "lower", "higher", got "more"', [1], { better: "more" }],
      ['options.centre must be one of "mean", "median", got "mode"', [1], { centre: "mode" }],
      ["options.worthwhile must be above 0 and at most 99, got 99.5", [1], { worthwhile: 99.5 }],
      ["options.worthwhile must be finite and above 0, got 0", [1], { worthwhile: 0, kind: "difference" }],
      ["options.level must be at least 0.6 and at most 0.9999, got 0.59", [1], { level: 0.59 }],
      ["options.level must be at least 0.6 and at most 0.9999, got 0.99999", [1], { level: 0.99999 }],
      ["options.autocorrelation must be at least 0 and at most 0.95, got 0.96", [1], { autocorrelation: 0.96 }],
      ["options.permutations must be a whole number at least 99 and at most 100000, got 98", [1], { permutations: 98 }],
      ["options.permutations must be a whole number at least 99 and at most 100000, got 100001", [1], { permutations: 100001 }],
      ["options.seed must be a whole number at least -2147483648 and at most 4294967295, got 0.5", [1], { seed: 0.5 }],
    ],
    RANGE,
  );

  refuses(
    "fitLearningCurve",
    fitLearningCurve as never,
    [
      ["series must be an object of columns, got 3", 3],
      ["series.practice must be a list of numbers, got undefined", { value: [1] }],
      ["series.value must be a list of numbers, got undefined", { practice: [1] }],
      ["series.trials must be a list of numbers, got 3", { ...good, trials: 3 }],
      ["series.trials must be given with binomial errors, got undefined", good, { errors: "binomial" }],
      ['options.robust must be true or false, got "yes"', good, { robust: "yes" }],
      ["options.bounds must be an object, got null", good, { bounds: null }],
      ["options.bounds.a must be a pair of numbers, got an array of 3", good, { bounds: { a: [1, 2, 3] } }],
      ['options.bounds.a[0] must be a number, got "0"', good, { bounds: { a: ["0", 1] } }],
      ["options.predict must be a list of numbers, got 9", good, { predict: 9 }],
      ["options.reach must be a list of numbers, got 9", good, { reach: 9 }],
      ["options.law must be a name or a law, got null", good, { law: null }],
      ["options.law.parameters must be a list of names, got an array of 0", good, { law: { ...own, parameters: [] } }],
      ["options.law.parameters must be a list of names, got an array of 2", good, { law: { ...own, parameters: ["k", 2] } }],
      ['options.law.parameters must be a list of names, got "k"', good, { law: { ...own, parameters: "k" } }],
      ["options.law.value must be a function, got undefined", good, { law: { ...own, value: undefined } }],
      ["options.law.gradient must be a function, got 3", good, { law: { ...own, gradient: 3 } }],
      ["options.law.starts must be one or more lists, got an array of 0", good, { law: { ...own, starts: [] } }],
      ["options.law.starts must be one or more lists, got undefined", good, { law: { ...own, starts: undefined } }],
      ["options.law.starts[0] must be a list of numbers, got 1", good, { law: { ...own, starts: [1] } }],
    ],
    TYPE,
  );
  refuses(
    "fitLearningCurve",
    fitLearningCurve as never,
    [
      ["series.value must have 3 entries like practice, got 2", { practice: [1, 2, 3], value: [1, 2] }],
      ["series.practice[1] must be at least the entry before, 2, got 1", { practice: [2, 1], value: [1, 2] }],
      ["series.practice[0] must be above 0 for this law, got -1", { practice: [-1, 1], value: [1, 2] }, { law: "combined" }],
      ["series.practice[0] must be above 0 for this law, got 0", { practice: [0, 1], value: [1, 2] }, { law: "power4" }],
      ["series.practice[0] must be above 0 for this law, got 0", { practice: [0, 1], value: [1, 2] }, { law: "power3" }],
      ["series.trials must have 3 entries like practice, got 1", { ...good, trials: [1] }],
      ["series.trials[2] must be above 0, got 0", { ...good, trials: [1, 1, 0] }],
      ["series.value[2] must be above 0 with lognormal errors, got -1", { ...good, value: [1, 1, -1] }, { errors: "lognormal" }],
      [
        "series.value[0] must be within 0 and 1 with binomial errors, got -0.1",
        { ...good, value: [-0.1, 0, 1], trials: [1, 1, 1] },
        { errors: "binomial" },
      ],
      ["series.value[0] must be within 0 and 1 with binomial errors, got 3", { ...good, trials: [1, 1, 1] }, { errors: "binomial" }],
      [`options.law must be one of ${LAW_NAMES}, got "cubic"`, good, { law: "cubic" }],
      ['options.errors must be one of "normal", "lognormal", "binomial", got "gamma"', good, { errors: "gamma" }],
      ['options.direction must be one of "falling", "rising", "either", got "up"', good, { direction: "up" }],
      ['options.intervals must be one of "profile", "wald", got "none"', good, { intervals: "none" }],
      ["options.level must be above 0 and below 1, got 0", good, { level: 0 }],
      ["options.robust must be false with binomial errors, got true", good, { errors: "binomial", robust: true }],
      ['options.bounds must name parameters of the law (b, c), got "a"', good, { law: "power2", bounds: { a: [0, 1] } }],
      ['options.bounds must name parameters of the law (k), got "a"', good, { law: own, bounds: { a: [0, 1] } }],
      ["options.bounds.c[0] must be finite and at least 0, got -Infinity", good, { bounds: { c: [Number.NEGATIVE_INFINITY, 1] } }],
      ["options.bounds.c[1] must be finite and at least 0, got Infinity", good, { bounds: { c: [0, Number.POSITIVE_INFINITY] } }],
      ["options.bounds.b[0] must be finite, got NaN", good, { bounds: { b: [Number.NaN, 1] } }],
      ["options.bounds.b[1] must be finite and at least 2, got 1", good, { bounds: { b: [2, 1] } }],
      ["options.band must be 0 or a whole number from 2 to 10000, got 10001", good, { band: 10001 }],
      ["options.band must be 0 or a whole number from 2 to 10000, got -1", good, { band: -1 }],
      ["options.band must be 0 or a whole number from 2 to 10000, got 2.5", good, { band: 2.5 }],
      ["options.predict[1] must be above 0 for this law, got -1", good, { law: "power2", predict: [1, -1] }],
      ["options.law.starts[1] must have 1 entries, got 2", good, { law: { ...own, starts: [[1], [1, 2]] } }],
      ["options.law.lower must have 1 entries, got undefined", good, { law: { ...own, lower: undefined } }],
      ["options.law.upper must have 1 entries, got 2", good, { law: { ...own, upper: [1, 2] } }],
      ["options.law.lower[0] must be at most its upper bound, got 10", good, { law: { ...own, lower: [10] } }],
    ],
    RANGE,
  );

  refuses(
    "compareLearningCurves",
    compareLearningCurves as never,
    [
      ['options.direction must be one of "falling", "rising", "either", got "up"', good, { direction: "up" }],
      ["options.origins must be a whole number at least 0 and at most 1000, got 1001", good, { origins: 1001 }],
      ["options.origins must be a whole number at least 0 and at most 1000, got -1", good, { origins: -1 }],
      [`options.laws[0] must be one of ${LAW_NAMES}, got "cubic"`, good, { laws: ["cubic"] }],
      ["series.practice[0] must be above 0 for this law, got 0", { practice: [0, 1], value: [1, 2] }, { laws: ["linear", "power2"] }],
    ],
    RANGE,
  );
  refuses(
    "compareLearningCurves",
    compareLearningCurves as never,
    [["options.laws[1]: options.law must be a name or a law, got 3", good, { laws: ["linear", 3] }]],
    TYPE,
  );

  const series = { day: [0, 1], value: [1, 2] };
  refuses(
    "detectPlateau",
    detectPlateau as never,
    [
      ["series must be an object, got 3", 3],
      ['series.day must be a list of numbers, got "0"', { day: "0", value: [] }],
      ["series.value must be a list of numbers, got undefined", { day: [] }],
      ["series.hitShare must be a list of numbers, got 1", { ...series, hitShare: 1 }],
      ['series.equipment must be an array of strings, got "ab"', { ...series, equipment: "ab" }],
      ["series.equipment[1] must be a string, got null", { ...series, equipment: ["a", null] }],
      ["series.alongside must be an object, got 2", { ...series, alongside: 2 }],
      ["series.alongside.pace.value must be a list of numbers, got undefined", { ...series, alongside: { pace: null } }],
      [
        'series.alongside.pace.value[0] must be a number, got "1"',
        { ...series, alongside: { pace: { value: ["1", 2], better: "lower" } } },
      ],
      ['options.horizon must be a number, got "14"', series, { horizon: "14" }],
    ],
    TYPE,
  );
  refuses(
    "detectPlateau",
    detectPlateau as never,
    [
      ["series.hitShare must have 2 entries like series.day, got 1", { ...series, hitShare: [1] }],
      ["series.hitShare[0] must be from 0 to 1, got -0.1", { ...series, hitShare: [-0.1, 1] }],
      [
        "series.alongside.pace.value must have 2 entries like series.day, got 1",
        { ...series, alongside: { pace: { value: [1], better: "lower" } } },
      ],
      ['series.alongside.pace.better must be "lower" or "higher", got undefined', { ...series, alongside: { pace: { value: [1, 2] } } }],
      ['options.kind must be one of "percent", "difference", got "ratio"', series, { kind: "ratio" }],
      ['options.better must be one of "lower", "higher", got "up"', series, { better: "up" }],
      ["options.worthwhile must be above 0 and at most 99, got 100", series, { worthwhile: 100 }],
      ["options.worthwhile must be finite and above 0, got -1", series, { kind: "difference", worthwhile: -1 }],
      ["options.horizon must be finite and above 0, got Infinity", series, { horizon: Number.POSITIVE_INFINITY }],
    ],
    RANGE,
  );
  it("detectPlateau takes shares at both ends, and days that are equal", () =>
    expect(detectPlateau({ day: [1, 1], value: [1, 2], hitShare: [0, 1], equipment: ["a", "b"] }).n).toBe(2));

  const scores = { start: [1], end: [1], retention: [1] };
  const savings = { first: [[1]], again: [[1]], criterion: 1 };
  refuses(
    "practiceRetention",
    practiceRetention as never,
    [
      ["scores must be an object of lists, got 3", 3],
      ["scores.end must be a list of numbers, got undefined", { start: [1] }],
      ["scores.retention must be a list of numbers, got null", { ...scores, retention: null }],
      ["scores.savings must be an object, got null", { ...scores, savings: null }],
      ["scores.savings.criterion must be a number, got undefined", { ...scores, savings: { ...savings, criterion: undefined } }],
      ['scores.savings.run must be a whole number, got "2"', { ...scores, savings: { ...savings, run: "2" } }],
      ["scores.savings.first must be an array of at least one list, got an array of 0", { ...scores, savings: { ...savings, first: [] } }],
      [
        "scores.savings.again must be an array of at least one list, got undefined",
        { ...scores, savings: { ...savings, again: undefined } },
      ],
      ["scores.savings.first[1] must be a list of numbers, got 1", { ...scores, savings: { ...savings, first: [[1], 1] } }],
    ],
    TYPE,
  );
  refuses(
    "practiceRetention",
    practiceRetention as never,
    [
      ['options.better must be one of "lower", "higher", got "more"', scores, { better: "more" }],
      ["options.level must be above 0 and below 1, got 1", scores, { level: 1 }],
      ["scores.savings.run must be a whole number finite and at least 1, got 0", { ...scores, savings: { ...savings, run: 0 } }],
      ["scores.savings.run must be a whole number finite and at least 1, got 1.5", { ...scores, savings: { ...savings, run: 1.5 } }],
    ],
    RANGE,
  );

  const task = { before: [1], after: [1] };
  refuses(
    "practiceTransfer",
    practiceTransfer as never,
    [
      ["scores must be an object, got undefined", undefined],
      ["scores.after must be a list of numbers, got undefined", { before: [1] }],
      ["scores.trained.before must be a list of numbers, got undefined", { ...task, trained: {} }],
      ['scores.trained.gain must be a number, got "1"', { ...task, trained: { gain: "1" } }],
      ["scores.trained.standardError must be a number, got null", { ...task, trained: { gain: 1, standardError: null } }],
      ["scores.control must be an object, got 1", { ...task, control: 1 }],
      ["scores.drill.after must be a list of numbers, got undefined", { ...task, drill: { before: [1] } }],
    ],
    TYPE,
  );

  refuses(
    "reliability",
    reliability as never,
    [
      ["scores must be an array of rows, got undefined", undefined],
      ["scores[0] must be a list of numbers, got null", [null]],
      ['scores[1][0] must be a number, got "2"', [[1], ["2"]]],
    ],
    TYPE,
  );
  refuses(
    "reliability",
    reliability as never,
    [
      [
        "scores[1] must have 2 sessions like the first row, got 3",
        [
          [1, 2],
          [1, 2, 3],
        ],
      ],
      ["scores[1] must hold at least one session, got none", [[1, 2], []]],
      ["scores[1][0] must lie within -1e100 and 1e100, got 2e+100", [[1], [2e100]]],
      ["options.level must be above 0 and below 1, got 0", [[1]], { level: 0 }],
    ],
    RANGE,
  );
  it("reliability takes scores of either size at the limit", () => expect(reliability([[1e100], [-1e100]]).people).toBe(2));

  refuses(
    "sessionStructure",
    sessionStructure as never,
    [
      ["trials must be an object of columns, got 3", 3],
      ["trials.value must be a list of numbers, got undefined", { session: [1] }],
      ["trials.day must be a list of numbers, got null", { session: [1], value: [1], day: null }],
      ['options.block must be a whole number, got "5"', { session: [], value: [] }, { block: "5" }],
      ['options.breakDays must be a number, got "3"', { session: [], value: [] }, { breakDays: "3" }],
    ],
    TYPE,
  );
  refuses(
    "sessionStructure",
    sessionStructure as never,
    [
      ["trials.day[1] must be at least the entry before it, 2, got 1", { session: [1, 2], value: [1, 1], day: [2, 1] }],
      ["trials.session[2] must be at least the entry before it, 2, got 1", { session: [1, 2, 1], value: [1, 1, 1] }],
      ['trials.value[2] must be above 0 with options.errors "lognormal", got -1', { session: [1, 1, 2], value: [1, 1, -1] }],
      ["options.block must be a whole number finite and at least 1, got 1.5", { session: [], value: [] }, { block: 1.5 }],
      ["options.breakDays must be finite and above 0, got -1", { session: [], value: [] }, { breakDays: -1 }],
    ],
    RANGE,
  );
});
