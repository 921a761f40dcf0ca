import type { CorrectionPhase } from "../row-parts.js";
import type { Correction, Offset, Submovement } from "../types.js";
import type { Axis, Point } from "./local-frame.js";

/** The error that a correction found must be this many quanta for its gain to mean anything. */
const QUANTA_OF_ERROR = 2;

/** What is needed to say how a correction turned out. */
export interface CorrectionSetting {
  /** From the target's centre to the pointer. */
  readonly fromCentre: (t: number) => Point;
  readonly offset: (t: number) => Offset;
  /** Whether a point at this distance from the centre lies on the target, `margin` or more from its edge. */
  readonly lies: (t: number, x: number, y: number, margin: number) => boolean;
  readonly axis: Axis | undefined;
  readonly quantum: number;
  readonly primaryPeak: number;
  readonly primaryEnd: number;
}

/** The submovements after the primary one, each with what it found and what it left; `before` is the one that the first of them followed. */
export function describeCorrections(
  strokes: readonly Submovement[],
  before: Submovement | undefined,
  setting: CorrectionSetting,
): Correction[] {
  return strokes.map((stroke, k) => describe(stroke, strokes[k - 1] ?? before, setting));
}

function describe(stroke: Submovement, before: Submovement | undefined, setting: CorrectionSetting): Correction {
  const { fromCentre, offset, axis, quantum, primaryPeak, primaryEnd } = setting;
  const from = fromCentre(stroke.start);
  const to = fromCentre(stroke.end);
  const errorBefore = offset(stroke.start);
  const errorAfter = offset(stroke.end);
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const amplitude = Math.sqrt(dx * dx + dy * dy);
  const square = from.x * from.x + from.y * from.y;
  // what there was to remove points from the pointer to the centre, the way of -from
  const removed = -(dx * from.x + dy * from.y);
  const left = dy * from.x - dx * from.y;
  const seen = square > (QUANTA_OF_ERROR * quantum) ** 2;
  return {
    ...stroke,
    errorBefore,
    errorAfter,
    latency: Math.max(0, stroke.start - primaryEnd),
    fromPeak: stroke.start - primaryPeak,
    pause: before === undefined ? 0 : Math.max(0, stroke.start - before.end),
    amplitude,
    ...(seen && { gain: removed / square + 0 }),
    ...(seen && amplitude > 0 && { directionErrorDeg: (Math.atan2(left, removed) * 180) / Math.PI + 0 }),
    ...(axis !== undefined && { reversal: dx * axis.ux + dy * axis.uy < 0 }),
    unnecessary: setting.lies(stroke.start, from.x, from.y, quantum),
    counterProductive: errorAfter.radial > errorBefore.radial + quantum,
  };
}

/** The time between the primary's end and the stop as a whole. */
export function describeCorrectionPhase(
  corrections: readonly Correction[],
  primary: Offset,
  stop: Offset,
  pathLength: number,
  missedFirst: boolean,
): CorrectionPhase {
  return {
    pause: corrections.reduce((sum, correction) => sum + correction.pause, 0),
    ...(pathLength > 0 && { efficiency: Math.min(1, (primary.radial - stop.radial) / pathLength) }),
    ...(primary.radial > 0 && { netEfficiency: 1 - stop.radial / primary.radial }),
    missing: corrections.length === 0 && !primary.inside && missedFirst,
  };
}
