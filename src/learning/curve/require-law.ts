import { show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import type { LearningLaw } from "../types.js";

/** Throws unless a law of one's own has what its type says. */
export function requireLaw(where: string, law: LearningLaw): void {
  if (law === null || typeof law !== "object") throw new TypeError(`${where}: options.law must be a name or a law, got ${show(law)}`);
  const { parameters, starts, lower, upper } = law;
  if (!Array.isArray(parameters) || parameters.length === 0 || parameters.some((name) => typeof name !== "string")) {
    throw new TypeError(`${where}: options.law.parameters must be a list of names, got ${show(parameters)}`);
  }
  if (typeof law.value !== "function") throw new TypeError(`${where}: options.law.value must be a function, got ${show(law.value)}`);
  if (typeof law.gradient !== "function")
    throw new TypeError(`${where}: options.law.gradient must be a function, got ${show(law.gradient)}`);
  if (!Array.isArray(starts) || starts.length === 0)
    throw new TypeError(`${where}: options.law.starts must be one or more lists, got ${show(starts)}`);
  const p = parameters.length;
  starts.forEach((start, i) => {
    requireList(where, `options.law.starts[${i}]`, start);
    if (start.length !== p) throw new RangeError(`${where}: options.law.starts[${i}] must have ${p} entries, got ${start.length}`);
  });
  if (lower?.length !== p) throw new RangeError(`${where}: options.law.lower must have ${p} entries, got ${lower?.length}`);
  if (upper?.length !== p) throw new RangeError(`${where}: options.law.upper must have ${p} entries, got ${upper?.length}`);
  for (let j = 0; j < p; j++) {
    if (!(lower[j]! <= upper[j]!))
      throw new RangeError(`${where}: options.law.lower[${j}] must be at most its upper bound, got ${lower[j]}`);
  }
}
