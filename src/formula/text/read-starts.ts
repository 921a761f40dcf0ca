import type { LearningLaw } from "../../learning/types.js";
import { clamp } from "../../math/local-model.js";
import { requireNumber, show } from "../../math/require.js";

type Values = Readonly<Record<string, number>>;

/** Starts and bounds by name, checked and put in the order of the parameters. */
export function readStarts(
  where: string,
  parameters: readonly string[],
  starts: Values | readonly Values[],
  lower: Values,
  upper: Values,
): Pick<LearningLaw, "starts" | "lower" | "upper"> {
  const low = read(where, "options.lower", parameters, lower, () => Number.NEGATIVE_INFINITY);
  const high = read(where, "options.upper", parameters, upper, () => Number.POSITIVE_INFINITY);
  for (const [j, name] of parameters.entries()) {
    if (!(low[j]! < high[j]!)) {
      throw new RangeError(`${where}: options.upper.${name} must be above options.lower.${name}, got ${high[j]} and ${low[j]}`);
    }
  }
  const records: readonly Values[] = Array.isArray(starts) ? starts : [starts as Values];
  if (records.length === 0) throw new RangeError(`${where}: options.starts must hold a start, got an empty list`);
  return {
    starts: records.map((record, k) => {
      const what = Array.isArray(starts) ? `options.starts[${k}]` : "options.starts";
      return read(where, what, parameters, record, (j) => clamp(1, low[j]!, high[j]!)).map((value, j) => {
        if (value < low[j]! || value > high[j]!) {
          throw new RangeError(`${where}: ${what}.${parameters[j]} must lie within its bounds, got ${value}`);
        }
        return value;
      });
    }),
    lower: low,
    upper: high,
  };
}

function read(where: string, what: string, parameters: readonly string[], record: Values, otherwise: (j: number) => number): number[] {
  if (typeof record !== "object" || record === null || Array.isArray(record)) {
    throw new TypeError(`${where}: ${what} must be an object with a number per parameter, got ${show(record)}`);
  }
  for (const name of Object.keys(record)) {
    if (!parameters.includes(name))
      throw new RangeError(`${where}: ${what} must name parameters (${parameters.join(", ")}), got ${show(name)}`);
  }
  return parameters.map((name, j) => {
    if (!Object.hasOwn(record, name)) return otherwise(j);
    const value = record[name]!;
    requireNumber(where, `${what}.${name}`, value);
    return value;
  });
}
