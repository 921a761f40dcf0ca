import { createRandom } from "../math/random.js";
import type { DisplayModel } from "./options.js";
import { toQuantum } from "./sample-path.js";

/** The stream that the display draws from: what everything else draws does not depend on it. */
const DISPLAY_STREAM = 3;
/** Standard deviation of a frame's recorded time about the display's beat, seconds. */
const FRAME_JITTER = 0.0001;

/** What lies between the things and the eye. */
export interface Sight {
  /** Seconds until what happens at `t` is seen: the wait for the next frame, and the latency. */
  readonly delayAt: (t: number) => number;
  /** Recorded times of the frames from 0 to `end`; absent without frames. */
  readonly framesUntil: (end: number, timeQuantum: number) => Float64Array | undefined;
}

/** The sight that `display` leaves; the frames of a seed have a phase of their own. */
export function sightOf(seed: number, { refreshHz, latency }: DisplayModel): Sight {
  if (refreshHz === null) return { delayAt: () => latency, framesUntil: () => undefined };
  const random = createRandom(seed, DISPLAY_STREAM);
  const interval = 1 / refreshHz;
  const phase = random.uniform(0, interval);
  return {
    delayAt: (t) => latency + Math.max(0, phase + Math.ceil((t - phase) * refreshHz) * interval - t),
    framesUntil: (end, timeQuantum) => {
      const frames = new Float64Array(Math.max(0, Math.floor((end - phase) * refreshHz) + 1));
      let before = 0;
      for (let k = 0; k < frames.length; k++) {
        before = Math.max(before, toQuantum(phase + k * interval + random.normal(0, FRAME_JITTER), timeQuantum));
        frames[k] = before;
      }
      return frames;
    },
  };
}
