/** The frequency at which a margin that is at least 0 at entry `at` and below 0 at the next falls to 0, by a straight line; the last frequency where there is no next. */
export function crossingAfter(hz: readonly number[], margins: readonly number[], at: number): number {
  const next = at + 1;
  if (next >= hz.length) return hz[at]!;
  const above = margins[at]!;
  return hz[at]! + (above / (above - margins[next]!)) * (hz[next]! - hz[at]!);
}
