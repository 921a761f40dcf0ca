// A program that asks at its own rate where the pointer is: it gets the last position that the device reported.
import type { Random } from "../src/math/random.js";
import type { Trace } from "../src/trace/types.js";

/** Spread of the times at which the program asks, seconds. */
const ASKING = 0.0001;

/** The trace as such a program would have it: every `1/hz` seconds from a moment drawn on, repeated positions included; `quiet` leaves those out, as events do. */
export function askedAt({ t, x, y }: Trace, hz: number, random: Random, quiet = false): Trace {
  const start = t[0]! + random.uniform(0, 1 / hz) + 4 * ASKING;
  const times: number[] = [];
  const places: number[] = [];
  let at = 0;
  for (let k = 0; start + k / hz < t[t.length - 1]!; k++) {
    const time = Math.max(times[times.length - 1] ?? 0, start + k / hz + random.normal(0, ASKING));
    while (at + 1 < t.length && t[at + 1]! <= time) at++;
    if (quiet && places[places.length - 1] === at) continue;
    times.push(time);
    places.push(at);
  }
  return { t: Float64Array.from(times), x: Float64Array.from(places, (i) => x[i]!), y: Float64Array.from(places, (i) => y[i]!) };
}
