import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** A seeded source of random numbers. The stream of a seed is frozen per major version, by the exact version of pure-rand. */
export interface Random {
  /** A number in [low, high). */
  readonly uniform: (low?: number, high?: number) => number;
  /** A draw from the normal distribution. */
  readonly normal: (mean?: number, sd?: number) => number;
  /** A draw from the exponential distribution with this mean. */
  readonly exponential: (mean: number) => number;
  /** One of the entries, all equally likely. */
  readonly pick: <T>(entries: readonly T[]) => T;
}

/**
 * The random source that belongs to `seed`, a 32-bit integer: the same seed gives the same numbers. `stream` picks one of several independent
 * sources of a seed, so that drawing more from one leaves the others as they are.
 */
export function createRandom(seed: number, stream = 0): Random {
  const generator = xoroshiro128plus(stir(seed + Math.imul(stream + 1, 0x9e3779b9)));
  const uniform = (low = 0, high = 1): number => low + (high - low) * uniformFloat64(generator);
  return {
    uniform,
    // Box and Muller's polar form would keep state between calls; the plain form does not
    normal: (mean = 0, sd = 1) => mean + sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    exponential: (mean) => -mean * Math.log(1 - uniform()),
    pick: (entries) => entries[Math.floor(uniform(0, entries.length))]!,
  };
}

/** The generator starts from the bare seed, so that neighbouring seeds begin alike: the bits are stirred first (finishing steps of MurmurHash3, recalled). */
function stir(seed: number): number {
  let bits = seed | 0;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return bits ^ (bits >>> 16);
}
