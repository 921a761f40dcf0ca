import { requireNumber, show } from "../../math/require.js";
import type { DrivenAxes } from "./response-of.js";

/** Throws unless the option `drivenHz` holds a list of ascending frequencies above 0 for each axis that it names. */
export function requireDrivenAxes(where: string, drivenHz: DrivenAxes): void {
  if (drivenHz === null || typeof drivenHz !== "object") {
    throw new TypeError(`${where}: options.drivenHz must be an object of lists x and y, got ${show(drivenHz)}`);
  }
  for (const axis of ["x", "y"] as const) {
    const lines = drivenHz[axis];
    if (lines === undefined) continue;
    if (!Array.isArray(lines)) throw new TypeError(`${where}: options.drivenHz.${axis} must be a list of frequencies, got ${show(lines)}`);
    for (const [i, hz] of lines.entries()) {
      requireNumber(where, `options.drivenHz.${axis}[${i}]`, hz, i === 0 ? 0 : lines[i - 1]!, undefined, true);
    }
  }
}
