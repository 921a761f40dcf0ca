import { normalCdf, normalDensity } from "../../math/normal.js";
import { smallInverse } from "../scatter/small-inverse.js";

/** Most rounds of scoring. */
const ROUNDS = 60;
/** Settled when no step exceeds this share of a standard error. */
const SETTLED = 1e-9;
/** A linear predictor beyond this leaves nothing to chance: hits and misses are separated, and no finite slope is most likely. */
const SURE = 12;

/** A regression of hits on columns: P = (1 - lapse) F(sum of coefficient times column). */
export interface BinaryFit {
  readonly coefficients: number[];
  /** From the expected information, the lapse taken as known. */
  readonly covariance: number[][];
  readonly logLikelihood: number;
}

/** Distribution function F and its density. */
export type Link = "probit" | "logit";

/** Most likely coefficients by Fisher's scoring (textbook). `undefined` where hits and misses are separated, or columns depend on each other. */
export function binaryRegression(columns: readonly Float64Array[], hit: Float64Array, link: Link, lapse = 0): BinaryFit | undefined {
  const n = hit.length;
  let beta = columns.map(() => 0);
  let likelihood = logLikelihood(columns, hit, link, lapse, beta);
  for (let round = 0; round < ROUNDS; round++) {
    const weight = new Float64Array(n);
    const pull = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const eta = predictor(columns, beta, i);
      const p = (1 - lapse) * share(link, eta);
      const density = (1 - lapse) * densityOf(link, eta);
      const variance = Math.max(p * (1 - p), 1e-300);
      weight[i] = (density * density) / variance;
      pull[i] = ((hit[i]! - p) * density) / variance;
    }
    const inverse = smallInverse(
      columns.map((one) => columns.map((other) => one.reduce((sum, value, i) => sum + value * other[i]! * weight[i]!, 0))),
    );
    if (inverse === undefined) return undefined;
    const score = columns.map((column) => column.reduce((sum, value, i) => sum + value * pull[i]!, 0));
    const step = inverse.map((row) => row.reduce((sum, value, j) => sum + value * score[j]!, 0));
    const moved = Math.sqrt(
      Math.max(
        0,
        step.reduce((sum, value, j) => sum + value * score[j]!, 0),
      ),
    );
    let part = 1;
    for (let halving = 0; halving < 30; halving++, part /= 2) {
      const tried = beta.map((value, j) => value + part * step[j]!);
      const next = logLikelihood(columns, hit, link, lapse, tried);
      if (next >= likelihood - 1e-12 * Math.abs(likelihood)) {
        beta = tried;
        likelihood = next;
        break;
      }
    }
    if (
      hit.every((_, i) => Math.abs(predictor(columns, beta, i)) > 4) ||
      hit.some((_, i) => Math.abs(predictor(columns, beta, i)) > SURE * 3)
    )
      return undefined;
    if (moved < SETTLED) return { coefficients: beta, covariance: inverse, logLikelihood: likelihood };
  }
  return undefined;
}

/** F of a link. */
export function share(link: Link, eta: number): number {
  return link === "probit" ? normalCdf(eta) : 1 / (1 + Math.exp(-eta));
}

function densityOf(link: Link, eta: number): number {
  if (link === "probit") return normalDensity(eta);
  const p = share(link, eta);
  return p * (1 - p);
}

function predictor(columns: readonly Float64Array[], beta: readonly number[], i: number): number {
  let sum = 0;
  for (let j = 0; j < beta.length; j++) sum += beta[j]! * columns[j]![i]!;
  return sum;
}

function logLikelihood(columns: readonly Float64Array[], hit: Float64Array, link: Link, lapse: number, beta: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < hit.length; i++) {
    const eta = predictor(columns, beta, i);
    // the smaller side keeps its digits
    sum += Math.log(hit[i] === 1 ? (1 - lapse) * share(link, eta) : lapse + (1 - lapse) * share(link, -eta));
  }
  return sum;
}
