import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type FitLearningCurveOptions, fitLearningCurve, type LearningCurveFit } from "../../src/learning/fit-learning-curve.js";
import type { LearningLawName, PracticeSeries } from "../../src/learning/types.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";

// Source: facts.json beside each set of recordings: least squares within bounds by SciPy's trust-region method from 15 to 72 starts, the smallest
// residual sum kept (ten digits of it, eight of the parameters, six of the standard errors). A smaller residual sum is better than the file.
interface Facts {
  readonly parameters: readonly number[];
  readonly standardErrors: readonly number[] | null;
  readonly rss: number;
  readonly n: number;
  readonly atBound: readonly number[];
  readonly AICc: number;
  readonly BIC: number;
}
interface Case {
  readonly name: string;
  readonly series: PracticeSeries;
  readonly law: LearningLawName;
  readonly bounds: Record<string, readonly [number, number]>;
  readonly facts: Facts;
  /** -1 where the file counts the gain of a rising measure as positive. */
  readonly sign: 1 | -1;
}

const read = (set: string) => {
  const path = sharedPath("data", set, "facts.json");
  return path === undefined
    ? undefined
    : { facts: JSON.parse(readFileSync(path, "utf8")), rows: readTable(sharedPath("data", set, "series.csv")!) };
};
const laparoscopy = read("practice-laparoscopy");
const rotation = read("practice-rotation");
const typing = read("practice-typing");

const durations: Case[] = Object.entries(laparoscopy?.facts.learners ?? {}).flatMap(([learner, facts]) => {
  const own = laparoscopy!.rows.filter((row) => row.learner === learner);
  const series = { practice: own.map((row) => Number(row.trial)), value: own.map((row) => Number(row.duration)) };
  const bounds = { a: [0, 100], b: [0, 1000], c: [0, 20] } as const;
  return (["exp3", "pow3", "pow2"] as const).map((key): Case => {
    const { a, ...others } = bounds;
    const law = { exp3: "exponential3", pow3: "power3", pow2: "power2" } as const;
    return {
      name: `${learner} ${key}`,
      series,
      law: law[key],
      bounds: key === "pow2" ? others : { a, ...others },
      facts: (facts as Record<string, Facts>)[key]!,
      sign: 1,
    };
  });
});

const deviations: Case[] = Object.entries(rotation?.facts.participants ?? {}).map(([person, facts]) => {
  const own = rotation!.rows.filter((row) => row.participant === person && row.block === "rotated" && row.deviation_deg !== "");
  return {
    name: person,
    series: { practice: own.map((row) => Number(row.trialInBlock)), value: own.map((row) => Number(row.deviation_deg)) },
    law: "exponential3",
    bounds: { a: [-60, 60], b: [-200, 0], c: [0, 20] },
    facts: (facts as { exp3upRotated: Facts }).exp3upRotated,
    sign: -1,
  };
});

const means: number[] = typing?.facts.sessionMeansWpm ?? [];
const sessions: PracticeSeries = { practice: means.map((_, i) => i + 1), value: means };
const speeds: Case[] =
  typing === undefined
    ? []
    : [
        {
          name: "typing tests",
          series: { practice: typing.rows.map((row) => Number(row.test)), value: typing.rows.map((row) => Number(row.wpm)) },
          law: "exponential3",
          bounds: { a: [0, 200], b: [-200, 0], c: [0, 20] },
          facts: typing.facts.exp3upTests,
          sign: -1,
        },
        {
          name: "typing sessions",
          series: sessions,
          law: "exponential3",
          bounds: { a: [0, 200], b: [-200, 0], c: [0, 20] },
          facts: typing.facts.exp3upSessionMeans,
          sign: -1,
        },
      ];
const all = [...durations, ...deviations, ...speeds];
const lettersOf = (law: LearningLawName): readonly string[] => (law === "power2" ? ["b", "c"] : ["a", "b", "c"]);

const fitOf = ({ series, law, bounds }: Case, options: FitLearningCurveOptions = {}): LearningCurveFit =>
  fitLearningCurve(series, { law, bounds, band: 0, ...options });
const alike = (got: number, wanted: number, share: number): boolean => Math.abs(got - wanted) <= share * Math.abs(wanted);

const absent = laparoscopy === undefined || rotation === undefined || typing === undefined;
describe.skipIf(absent)(`learning curves of people${absent ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it("are all there: 12 learners with three laws, 12 people, one typist twice", () =>
    expect([durations.length, deviations.length, speeds.length]).toEqual([36, 12, 2]));

  // 1e-8: the least sum is known to ten digits (of the typist's sessions, to nine: their means have nine)
  it.each(all.map((one): [string, Case] => [one.name, one]))("%s: reaches the residual sum of the best of many starts", (_, one) => {
    const { quality, fitted, residuals, convergence, n } = fitOf(one);
    expect(n).toBe(one.facts.n);
    expect(convergence.converged).toBe(true);
    expect(quality!.residualSum).toBeLessThanOrEqual(one.facts.rss * (1 + 1e-8));
    expect([...fitted, ...residuals].every(Number.isFinite)).toBe(true);
  });

  it.each(all.map((one): [string, Case] => [one.name, one]))(
    "%s: has the parameters, standard errors and criteria of the file, or says what is at a bound",
    (_, one) => {
      const { facts, law, sign } = one;
      const letters = lettersOf(law);
      const { parameters, atBound, quality, warnings } = fitOf(one, { intervals: "wald" });
      expect(atBound).toEqual(facts.atBound.map((j) => letters[j]));
      expect(warnings.includes("atBound")).toBe(facts.atBound.length > 0);
      for (const letter of atBound) expect(parameters[letter]).toMatchObject({ ok: false, why: "notIdentified" });
      letters.forEach((letter, j) => {
        const parameter = parameters[letter]!;
        if (!parameter.ok) return;
        // eight digits are stored; a tenth of a thousandth of a standard error where the data hold the parameter loosely
        const wanted = facts.parameters[j]! * (letter === "b" ? sign : 1);
        const loose = 1e-4 * (facts.standardErrors?.[j] ?? 0);
        expect(Math.abs(parameter.value - wanted)).toBeLessThanOrEqual(1e-6 * Math.abs(wanted) + loose);
        if (facts.standardErrors !== null) expect(alike(parameter.standardError!, facts.standardErrors[j]!, 2e-5)).toBe(true);
      });
      // the file leaves out the constant n (ln 2 pi + 1)
      const constant = facts.n * (Math.log(2 * Math.PI) + 1);
      expect(Math.abs(quality!.aicc! - constant - facts.AICc)).toBeLessThan(1e-6);
      expect(Math.abs(quality!.bic! - constant - facts.BIC)).toBeLessThan(1e-6);
    },
  );

  it("are fitted without bounds of their own, too, and no number in the result is not finite", () => {
    for (const one of all) {
      const fit = fitLearningCurve(one.series, { law: one.law, predict: [2, 500], reach: [1, 30] });
      expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
      expect(fit.quality!.residualSum).toBeLessThanOrEqual(one.facts.rss * (1 + 1e-8));
    }
  });

  it("leave a gain that the missing first trials hide without a number", () => {
    const late = deviations.find(({ name }) => name === "p035")!;
    expect(fitLearningCurve(late.series).parameters.b).toMatchObject({ ok: false, why: "notIdentified" });
  });

  it("show no gain of a practised typist over sessions", () => {
    const { warnings, parameters } = fitLearningCurve(sessions, { unit: "words/min" });
    expect(warnings).toEqual(expect.arrayContaining(["noGain", "asymptoteNotIdentified"]));
    expect(parameters.a!.ok).toBe(false);
  });
});
