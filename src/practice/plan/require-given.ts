import { requireInteger, requireNumber, requireObject, requireOneOf } from "../../math/require.js";
import type { PaceAdvice } from "../../pacing/types.js";

import type { PlanDiagnosis } from "./first-item.js";
import { PARTS } from "./parts.js";

const VERDICTS = ["weakestPart", "noWeakestPart", "limitedBy", "cannotTell"] as const;
const FACTORS = ["sampling", "equipment", "pace", "fatigue"] as const;

/** Throws unless it is a diagnosis that a plan can be made from. */
export function requireDiagnosis(where: string, diagnosis: PlanDiagnosis): void {
  const name = "options.diagnosis";
  requireObject(where, name, diagnosis);
  requireObject(where, `${name}.verdict`, diagnosis.verdict);
  requireOneOf(where, `${name}.verdict.kind`, diagnosis.verdict.kind, VERDICTS);
  if (diagnosis.verdict.kind === "weakestPart") requireOneOf(where, `${name}.verdict.part`, diagnosis.verdict.part, PARTS);
  if (diagnosis.verdict.kind === "limitedBy") requireOneOf(where, `${name}.verdict.factor`, diagnosis.verdict.factor, FACTORS);
  for (const list of ["parts", "rulings"] as const) {
    if (!Array.isArray(diagnosis[list])) throw new TypeError(`${where}: ${name}.${list} must be a list, got ${typeof diagnosis[list]}`);
  }
  requireObject(where, `${name}.hitShare`, diagnosis.hitShare);
  requireInteger(where, `${name}.sessions`, diagnosis.sessions, 0);
}

/** Throws unless it is advice on pace. */
export function requirePace(where: string, name: string, pace: PaceAdvice): void {
  requireObject(where, name, pace);
  requireOneOf(where, `${name}.advice`, pace.advice, ["slowDown", "hold", "speedUp", "cannotTell"]);
  requireNumber(where, `${name}.from`, pace.from, 0, undefined, true);
  requireNumber(where, `${name}.to`, pace.to, 0, undefined, true);
  requireNumber(where, `${name}.wanted`, pace.wanted, 0, 1, true);
  requireObject(where, `${name}.hitShare`, pace.hitShare);
}
