import { requireNumber, show } from "../../math/require.js";

/** Throws unless the option `drivenHz` is a list of ascending frequencies above 0 and below half the sampling rate. */
export function requireDriven(where: string, drivenHz: readonly number[], sampleRateHz: number): void {
  if (!Array.isArray(drivenHz) || drivenHz.length === 0) {
    throw new TypeError(`${where}: options.drivenHz must be a list of frequencies, got ${show(drivenHz)}`);
  }
  for (const [i, hz] of drivenHz.entries()) {
    const name = `options.drivenHz[${i}]`;
    requireNumber(where, name, hz, i === 0 ? 0 : drivenHz[i - 1]!, sampleRateHz / 2, true);
    if (hz === sampleRateHz / 2) throw new RangeError(`${where}: ${name} must be below half the sampling rate, got ${hz}`);
  }
}
