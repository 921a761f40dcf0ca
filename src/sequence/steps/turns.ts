import type { Visit } from "./sequence-trials.js";

/** Change of direction from the movement before to this one, degrees in (-180, 180], positive to the left on a y-down screen; `undefined` without two directions. */
export function turnDeg(before: Visit | undefined, visit: Visit): number | undefined {
  const from = before && axisOf(before);
  const to = axisOf(visit);
  if (from === undefined || to === undefined) return undefined;
  const cross = from.y * to.x - from.x * to.y;
  const dot = from.x * to.x + from.y * to.y;
  const degrees = (Math.atan2(cross, dot) * 180) / Math.PI;
  return degrees <= -180 ? 180 : degrees + 0;
}

function axisOf({ row, start, centre }: Visit): { x: number; y: number } | undefined {
  if (start === undefined || row.times.onset === undefined || row.flags.includes("noAxis")) return undefined;
  return { x: centre.x - start.x, y: centre.y - start.y };
}
