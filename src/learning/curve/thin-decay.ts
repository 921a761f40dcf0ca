import { type DecayData, decayData } from "./decay-point.js";

/** Values kept one by one at the start, where curves are steep, and groups after them. */
const SINGLE = 12;
const GROUPS = 24;
/** Groups of a series so long that they cost nothing beside a look at all of it. */
const MANY_GROUPS = 72;
const LONG = 2000;
/** Thinning that spares no more values than this costs more than it saves. */
const SPARED = 4;

/** The most values that `n` of them are thinned to. */
export function mostThinned(n: number): number {
  return SINGLE + (n < LONG ? GROUPS + SPARED : MANY_GROUPS);
}

/**
 * The same data with neighbours averaged, in groups that grow with practice; data of few values come back as they are. The columns lie in
 * `memory`, of 3 numbers for each of the most values.
 */
export function thinDecay(data: DecayData, memory: Float64Array): DecayData {
  const { n } = data;
  if (n <= SINGLE + GROUPS + SPARED) return data;
  const groups = n < LONG ? GROUPS : MANY_GROUPS;
  const most = SINGLE + groups;
  const lag = memory.subarray(0, most);
  const value = memory.subarray(most, 2 * most);
  const weight = memory.subarray(2 * most, 3 * most);
  const growth = Math.exp(Math.log(n / SINGLE) / groups);
  let edge = SINGLE;
  let from = 0;
  let k = 0;
  for (let group = 0; group < most && from < n; group++) {
    if (group >= SINGLE) edge *= growth;
    const to = group < SINGLE ? from + 1 : group === most - 1 ? n : Math.min(n, Math.max(from + 1, Math.round(edge)));
    let w = 0;
    let u = 0;
    let y = 0;
    for (let i = from; i < to; i++) {
      w += data.weight[i]!;
      u += data.weight[i]! * data.lag[i]!;
      y += data.weight[i]! * data.value[i]!;
    }
    weight[k] = w;
    lag[k] = u / w;
    value[k] = y / w;
    k++;
    from = to;
  }
  return decayData(lag.subarray(0, k), value.subarray(0, k), weight.subarray(0, k));
}
