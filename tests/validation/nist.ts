// The certified nonlinear problems: digits from both certified starts, and the share solved from perturbed starts, all through laws made from text.
import { nonlinearFit } from "../../src/math/nonlinear-fit.js";
import { agreeingDigits, nistProblem, perturbedStarts } from "../math/nist-problems.js";
import { type ReferenceCase, readReference } from "../shared.js";
import type { Outcome } from "./figure.js";

/** The random start of the published comparison; the search was developed with another. */
const SEED = 20270203;
const LIMIT = 2000;
/** Its residual sum is below rounding: only the parameters can be asked for, to the four digits of the table's tolerance. */
const BELOW_ROUNDING = "Lanczos1";
const SOURCE = "NIST StRD nonlinear regression; reference/learning/nist-nonlinear.json";
const NAME = "learning/certified nonlinear problems";
/**
 * What other programs solved of the same 4400 starts, with derivatives and as many calls (benchmarks/nist.ts, run on 2026-11-25). The first at the
 * tolerance that serves it best; its own default gives 50.1 %.
 */
const BEST_RIVAL = 69.8;
const RIVALS = "SciPy 1.10.1 curve_fit 69.8 %, R 4.2.2 nls 43.4 % and with algorithm port 48.2 %";

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const cases = readReference("learning/nist-nonlinear.json")?.cases;
  if (cases === undefined) return [{ name: NAME, skipped: "the reference tables" }];
  return [...[1, 2].flatMap((k) => fromCertified(cases, k)), fromPerturbed(cases, quick ? 3 : 100)];
}

function fromCertified(cases: readonly ReferenceCase[], k: number): Outcome[] {
  const found = cases.map((c) => {
    const { parameters, standardErrors, converged } = nonlinearFit(nistProblem(c, [c.params[`start${k}`]]), { maxEvaluations: LIMIT });
    return {
      name: c.name,
      parameters: converged ? agreeingDigits(parameters, c.expected.parameters) : 0,
      errors: agreeingDigits(standardErrors, c.expected.standardErrors),
    };
  });
  const usual = found.filter(({ name }) => name !== BELOW_ROUNDING);
  const special = found.find(({ name }) => name === BELOW_ROUNDING)!;
  const fewest = (what: "parameters" | "errors"): { value: number; source: string } => {
    const worst = usual.reduce((least, one) => (one[what] < least[what] ? one : least));
    return { value: worst[what], source: `${SOURCE}, ${usual.length} problems, worst ${worst.name}` };
  };
  const digits = fewest("parameters");
  const errorDigits = fewest("errors");
  return [
    { name: `${NAME}, fewest digits of a parameter, start ${k}`, ...digits, bar: ">= 6 digits", ok: digits.value >= 6 },
    { name: `${NAME}, fewest digits of a standard deviation, start ${k}`, ...errorDigits, bar: ">= 4 digits", ok: errorDigits.value >= 4 },
    {
      name: `${NAME}, digits of ${BELOW_ROUNDING}, start ${k}`,
      value: special.parameters,
      bar: ">= 4 digits",
      ok: special.parameters >= 4,
      source: SOURCE,
    },
  ];
}

/** Share of perturbed starts from which every parameter has six digits (four for the problem below rounding). */
function fromPerturbed(cases: readonly ReferenceCase[], count: number): Outcome {
  let solved = 0;
  let fits = 0;
  for (const [k, c] of cases.entries()) {
    for (const start of perturbedStarts(c, k, count, SEED)) {
      const { parameters } = nonlinearFit(nistProblem(c, [start]), { maxEvaluations: LIMIT });
      solved += Number(agreeingDigits(parameters, c.expected.parameters) >= (c.name === BELOW_ROUNDING ? 4 : 6));
      fits++;
    }
  }
  const value = (100 * solved) / fits;
  return {
    name: `${NAME}, solved from perturbed starts`,
    value,
    bar: `> ${BEST_RIVAL} %`,
    ok: value > BEST_RIVAL,
    source: `${fits} starts, certified ones times exp(z / 2), at most ${LIMIT} calls of the model; on 4400 of them ${RIVALS}`,
  };
}
