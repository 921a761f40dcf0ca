import { noiseFloor } from "../../trace/condition/noise-floor.js";
import { nominalRate } from "../../trace/condition/nominal-rate.js";
import { positionQuantum } from "../../trace/condition/position-quantum.js";
import type { Trace } from "../../trace/types.js";
import { appendSamples, createSampleBuffer, heldSamples, newestTime, samplesBetween } from "./sample-buffer.js";

/** The rate and the quantum of the device are taken from this many samples at the most, the first ones. */
const SAMPLES_TO_TELL = 2048;
/** No grid is finer, Hz. */
const HIGHEST_RATE = 1000;

/** What the first samples say of the device that made them. */
export interface Device {
  /** Samples per second of the grid; `undefined` when too little has moved to tell. */
  readonly rate: number | undefined;
  readonly quantum: number;
  /** Noise of one velocity component, unit per second. */
  readonly noise: number;
  /** Noise of one filtered coordinate, in the space's unit. */
  readonly positionNoise: number;
}

/** Tells the device from the first samples. */
export interface DeviceGauge {
  readonly append: (trace: Trace) => void;
  /** The answer from the samples up to `t`. */
  readonly tell: (t: number) => Device;
}

/** A gauge; a rate or a quantum that is `known` is not asked of the samples. */
export function createDeviceGauge(known: { sampleRateHz: number | undefined; quantum: number | undefined; cutoffHz: number }): DeviceGauge {
  const opening = createSampleBuffer();
  let device: Device | undefined;
  let told = Number.NEGATIVE_INFINITY;

  return {
    append: (trace) => {
      const room = SAMPLES_TO_TELL - heldSamples(opening);
      if (room > 0) appendSamples(opening, { t: trace.t.subarray(0, room), x: trace.x.subarray(0, room), y: trace.y.subarray(0, room) });
    },
    tell: (t) => {
      // once the opening is full and past, nothing can change the answer
      if (device !== undefined && heldSamples(opening) >= SAMPLES_TO_TELL && told >= newestTime(opening)) return device;
      const seen = samplesBetween(opening, Number.NEGATIVE_INFINITY, t);
      const rate = known.sampleRateHz ?? nominalRate(seen);
      const quantum = known.quantum ?? positionQuantum(seen) ?? 0;
      const capped = rate === undefined ? undefined : Math.min(rate, HIGHEST_RATE);
      if (device?.rate !== capped || device?.quantum !== quantum) {
        const floor = capped === undefined ? undefined : noiseFloor(quantum, capped, Math.min(known.cutoffHz, 0.45 * capped));
        device = { rate: capped, quantum, noise: floor?.speed ?? 0, positionNoise: floor?.position ?? 0 };
      }
      told = t;
      return device!;
    },
  };
}
