import { requireNumber } from "../math/require.js";
import type { DisplayModel } from "./options.js";

/** Throws unless the display's settings are in range. */
export function checkDisplay(where: string, { refreshHz, latency }: DisplayModel): void {
  if (refreshHz !== null) requireNumber(where, "options.display.refreshHz", refreshHz, 1, 10000);
  requireNumber(where, "options.display.latency", latency, 0, 10);
}
