/** The values, those at equal x put in ascending order; `x` never falls. */
export function sortWithinTies(x: Float64Array, y: Float64Array): Float64Array {
  const values = y.slice();
  for (let from = 0, to = 0; from < x.length; from = to) {
    while (to < x.length && x[to] === x[from]) to++;
    if (to > from + 1) values.subarray(from, to).sort();
  }
  return values;
}
