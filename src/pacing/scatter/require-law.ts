import { requireNumber, requireObject, requireOneOf } from "../../math/require.js";
import type { AxisLaw, SpeedAccuracyLaw } from "../types.js";

/** Throws unless `law` states how endpoints scatter on one axis or both. */
export function requireLaw(where: string, law: SpeedAccuracyLaw): void {
  requireAxis(where, "source.along", law.along);
  if (law.across !== undefined) requireAxis(where, "source.across", law.across);
}

function requireAxis(where: string, name: string, axis: AxisLaw): void {
  requireObject(where, name, axis);
  const { scatter, bias } = axis;
  requireObject(where, `${name}.scatter`, scatter);
  requireOneOf(where, `${name}.scatter.form`, scatter.form, ["linear", "power"]);
  if (scatter.form === "linear") {
    requireNumber(where, `${name}.scatter.floor`, scatter.floor, 0);
    requireNumber(where, `${name}.scatter.slope`, scatter.slope, 0);
  } else {
    requireNumber(where, `${name}.scatter.factor`, scatter.factor, 0, Number.POSITIVE_INFINITY, true);
    requireNumber(where, `${name}.scatter.amplitudeExponent`, scatter.amplitudeExponent);
    requireNumber(where, `${name}.scatter.timeExponent`, scatter.timeExponent);
  }
  if (bias === undefined) return;
  requireObject(where, `${name}.bias`, bias);
  for (const part of ["level", "slope", "at"] as const) requireNumber(where, `${name}.bias.${part}`, bias[part]);
}
