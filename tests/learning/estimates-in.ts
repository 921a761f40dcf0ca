// What the checks of whole results have in common.
import type { Estimate } from "../../src/math/estimate.js";

/** Every estimate in a result, with its path. */
export function estimatesIn(value: unknown, path = ""): (readonly [string, Estimate])[] {
  if (value === null || typeof value !== "object") return [];
  if ("ok" in value) return [[path, value as Estimate]];
  return Object.entries(value).flatMap(([key, inner]) => estimatesIn(inner, path === "" ? key : `${path}/${key}`));
}

/** Every estimate that is not ok, as "path reason unit n". */
export function refusalsIn(result: unknown): string[] {
  return estimatesIn(result).flatMap(([path, one]) => (one.ok ? [] : [`${path}: ${one.why}, unit "${one.unit}", n ${one.n}`]));
}

/** Every estimate that is ok, as "path unit n level", without the level where it has no interval. */
export function labelsIn(result: unknown): string[] {
  return estimatesIn(result).flatMap(([path, one]) =>
    one.ok ? [`${path}: unit "${one.unit}", n ${one.n}${one.level === undefined ? "" : `, level ${one.level}`}`] : [],
  );
}
