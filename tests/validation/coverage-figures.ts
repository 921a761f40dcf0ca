// Lines for a trial of intervals: bars at 50 values of normal shape, and a check that what is low is said.
import { type Held, measure, type Trial } from "../intervals/measure.js";
import type { Figure } from "./figure.js";

const SOURCE = "simulated sets, shapes fixed beforehand: normal, gamma of shape 2, Student t with 3 df";

/** Quantities whose truth lies at or near the end of what they can be: no interval of theirs can miss on that side. */
const BOUNDED = /length of the bias|gain with less spread/;

/** Half width of the band of a share among `runs`: of 99 %, or wider where hundreds of lines are compared and one in a hundred would miss. */
const band = (share: number, runs: number, z = 2.576): number => z * Math.sqrt((share * (1 - share)) / runs);
const MANY_LINES = 3.5;

/** One line per interval, size and shape. From 2000 runs on normal scatter at 50 must hold 93 to 97 %; a smaller run uses the binomial 99 % band of its run count. */
export function coverageFigures(trial: Trial, runs: number, seed: number): Figure[] {
  return measure(trial, runs, seed).flatMap((held) => (held.share === null ? [] : [coverageFigure(held, held.share, runs)]));
}

function coverageFigure({ name: interval, n, shape, said }: Held, share: number, runs: number): Figure {
  const line = (bar: string, ok: boolean): Figure => ({
    name: `${interval}, coverage at n = ${n}, ${shape}`,
    value: 100 * share,
    bar,
    ok,
    source: SOURCE,
  });
  if (shape === "normal" && n >= 50 && BOUNDED.test(interval)) {
    const least = 0.93 - (runs >= 2000 ? 0 : band(0.95, runs) - 0.02);
    return line(`>= ${(100 * least).toFixed(1)} %; near its bound it holds more`, share >= least);
  }
  if (shape === "normal" && n >= 50) {
    const half = runs >= 2000 ? 0.02 : band(0.95, runs);
    return line(`${(95 - 100 * half).toFixed(1)} to ${Math.min(100, 95 + 100 * half).toFixed(1)} %`, Math.abs(share - 0.95) <= half + 1e-9);
  }
  // a share just above 90 % may come out just below it by chance, and a stated one was measured on other sets
  if (said === null) return line(">= 90 %, or the result says so", share >= 0.9 - band(0.9, runs, MANY_LINES));
  return line(`the result says ${(100 * said).toFixed(1)} %`, Math.abs(share - said) <= band(said, runs, MANY_LINES) + band(said, 2000));
}
