import { linearRegression } from "../../math/linear-regression.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentTail } from "../../math/student-tail.js";

const ENOUGH_SESSIONS = 5;
const ALPHA = 0.05;

/** Whether one of the series has a straight trend over its sessions in their order (5 % among all of them; neighbours taken as independent). */
export function trendWithin(series: readonly Float64Array[]): boolean {
  return series.some((values) => trendP(values) < ALPHA / series.length);
}

function trendP(values: Float64Array): number {
  if (values.length < ENOUGH_SESSIONS) return 1;
  const fit = linearRegression([values.map((_, i) => i)], values);
  if (fit === undefined || meanAndSd(values).sd === 0) return 1;
  const [, slope] = fit.coefficients;
  const [, error] = fit.standardErrors;
  return error! > 0 ? studentTail(slope! / error!, fit.df) : 0;
}
