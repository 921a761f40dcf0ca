/** Predictors of each movement, with what can be told apart by them. */
export interface DependenceDesign {
  readonly columns: readonly Float64Array[];
  /** Whether the first column is the amplitude, from its mean. */
  readonly amplitude: boolean;
  /** Harmonics of direction in the columns after it, a cosine and a sine each. */
  readonly harmonics: 0 | 1 | 2;
}

/** Cosines of right angles miss 0 by rounding; a column of such rests is empty. */
const NOTHING = 1e-12;
/** Amplitudes that differ by less than this share of their mean are one. */
const ONE_AMPLITUDE = 1e-9;

/** All designs worth a try, the fullest first; none when there is nothing to depend on. */
export function dependenceDesigns(amplitude: Float64Array, mean: number, direction: Float64Array, most: 0 | 2): DependenceDesign[] {
  const centred = amplitude.map((value) => value - mean);
  const varies = centred.some((value) => Math.abs(value) > ONE_AMPLITUDE * mean);
  const terms = [Math.cos, Math.sin].flatMap((f) => [1, 2].map((k) => ({ k, column: direction.map((angle) => trimmed(f(k * angle))) })));
  const designs: DependenceDesign[] = [];
  for (const harmonics of most === 0 ? ([0] as const) : ([2, 1, 0] as const)) {
    if (harmonics === 0 && !varies) break;
    const columns = [1, 2].slice(0, harmonics).flatMap((k) => terms.filter((term) => term.k === k).map((term) => term.column));
    designs.push({ columns: varies ? [centred, ...columns] : columns, amplitude: varies, harmonics });
  }
  return designs;
}

function trimmed(value: number): number {
  return Math.abs(value) < NOTHING ? 0 : value;
}
