// The measures that the study of planted weaknesses watches: how each is read from a summary, and what it truly was.
import type { Estimate } from "../../src/math/estimate.js";
import type { Summary } from "../../src/movement/summarize.js";
import type { TrueMovement } from "../../src/simulate/index.js";

/** One watched measure. */
export interface Measure {
  /** Where it stands in a `Summary`. */
  readonly field: string;
  readonly pick: (summary: Summary) => Estimate;
  /** The same from what was drawn; `undefined` for those that no weakness is planted in. */
  readonly truth?: (movements: readonly TrueMovement[]) => number;
}

export const MEASURES = {
  latency: {
    field: "time.parts.latency.mean",
    pick: (s) => s.time.parts.latency.mean,
    truth: (m) => mean(m.flatMap((one) => one.latency ?? [])),
  },
  primaryTime: {
    field: "time.parts.primary.mean",
    pick: (s) => s.time.parts.primary.mean,
    truth: (m) => mean(m.flatMap((one) => (one.onset === undefined || one.primaryEnd === undefined ? [] : one.primaryEnd - one.onset))),
  },
  aimBias: {
    field: "primaryError.along.constant",
    pick: (s) => s.primaryError.along.constant,
    truth: (m) => mean(m.flatMap((one) => one.primaryError?.along ?? [])),
  },
  aimSpreadAlong: {
    field: "primaryError.along.variable",
    pick: (s) => s.primaryError.along.variable,
    truth: (m) => sd(m.flatMap((one) => one.primaryError?.along ?? [])),
  },
  aimSpreadAcross: {
    field: "primaryError.across.variable",
    pick: (s) => s.primaryError.across.variable,
    truth: (m) => sd(m.flatMap((one) => one.primaryError?.across ?? [])),
  },
  correctionCount: { field: "corrections.perAcquisition", pick: (s) => s.corrections.perAcquisition },
  correctionLatency: {
    field: "corrections.latency",
    pick: (s) => s.corrections.latency,
    truth: (m) =>
      median(
        m.flatMap((one) => {
          const first = one.components.find((component) => component.role === "correction");
          return first === undefined || one.primaryEnd === undefined ? [] : Math.max(0, first.onset - one.primaryEnd);
        }),
      ),
  },
  correctiveGain: {
    field: "corrections.gain.unbiased",
    pick: (s) => s.corrections.gain.unbiased,
    truth: (m) =>
      mean(m.flatMap((one) => one.components.flatMap((component) => (component.role === "correction" ? (component.gain ?? []) : [])))),
  },
  correctionTime: { field: "time.parts.correction.mean", pick: (s) => s.time.parts.correction.mean },
  decelerationShare: { field: "stopping.decelerationShare.mean", pick: (s) => s.stopping.decelerationShare.mean },
  verification: {
    field: "stopping.verification.mean",
    pick: (s) => s.stopping.verification.mean,
    truth: (m) => mean(m.flatMap((one) => (one.press === undefined || one.stop === undefined ? [] : Math.max(0, one.press - one.stop)))),
  },
  pressTiming: {
    field: "stopping.afterStop.sd",
    pick: (s) => s.stopping.afterStop.sd,
    truth: (m) => sd(m.flatMap((one) => (one.press === undefined || one.stop === undefined ? [] : one.press - one.stop))),
  },
  earlyPresses: {
    field: "stopping.early",
    pick: (s) => s.stopping.early,
    truth: (m) => mean(m.map((one) => (one.press !== undefined && one.stop !== undefined && one.press < one.stop ? 1 : 0))),
  },
  pressDuration: { field: "stopping.pressDuration.mean", pick: (s) => s.stopping.pressDuration.mean },
  slip: {
    field: "stopping.slip.rms",
    pick: (s) => s.stopping.slip.rms,
    truth: (m) => Math.sqrt(mean(m.flatMap((one) => (one.slip === undefined ? [] : one.slip.x ** 2 + one.slip.y ** 2)))),
  },
  hits: { field: "hitAtFirstPress", pick: (s) => s.hitAtFirstPress },
  pathEfficiency: { field: "economy.efficiency", pick: (s) => s.economy.efficiency },
} as const satisfies Record<string, Measure>;

export type MeasureName = keyof typeof MEASURES;

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function sd(values: readonly number[]): number {
  const centre = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - centre) ** 2)));
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
