/** An extremum of a position about where it comes to rest. */
export interface Swing {
  /** Where it lies, in samples from the start of the column; not whole. */
  readonly index: number;
  /** Signed distance from the resting place. */
  readonly height: number;
}

/**
 * Extrema of `position` on alternating sides of `final`, each further from it than `least`, among the samples `[start, end)`. Each is the top of the parabola through
 * three samples. Several in a row on one side are one swing, the farthest; a place left again in the direction it was reached from is none, nor is a rest at the start.
 */
export function swings(position: Float64Array, start: number, end: number, final: number, least: number): Swing[] {
  const found: Swing[] = [];
  let direction = 0;
  for (let i = start; i < end - 1; i++) {
    const step = position[i + 1]! - position[i]!;
    if (step === 0) continue;
    const turned = direction * step < 0;
    const top = step < 0;
    direction = Math.sign(step);
    if (!turned) continue;
    const before = position[i - 1]! - final;
    const here = position[i]! - final;
    const after = position[i + 1]! - final;
    const bend = before - 2 * here + after;
    const offset = (before - after) / (2 * bend);
    const height = here - ((before - after) * offset) / 4;
    if (!(top ? height > least : height < -least)) continue;
    const last = found.at(-1);
    if (last === undefined || last.height > 0 !== height > 0) found.push({ index: i + offset, height });
    else if (Math.abs(height) > Math.abs(last.height)) found[found.length - 1] = { index: i + offset, height };
  }
  return found;
}
