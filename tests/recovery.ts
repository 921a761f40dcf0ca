// Recovery of simulated truth by the movement analysis, on the fixed distributions and with the scoring that the figures are always given for.
import { analyze } from "../src/movement/analyze.js";
import { findPeaks } from "../src/movement/bell/peaks.js";
import type { Acquisition } from "../src/movement/types.js";
import { simulateRecording } from "../src/simulate/index.js";
import type { TrueComponent, TrueMovement } from "../src/simulate/truth.js";
import { kinematics } from "../src/trace/kinematics.js";
import type { KinematicSegment } from "../src/trace/uniform.js";

/** Spacing from the end of the component before to the onset of a correction, in the bins that figures are given for. */
export const SPACINGS = ["below -50", "-50..0", "0..50", "50..150", "above 150"] as const;
export type Spacing = (typeof SPACINGS)[number];

/** Size of a correction as a share of the amplitude, beside whether it is larger than 4 px. */
export const SIZES = ["below 2 %", "2-5 %", "above 5 %"] as const;
export type Size = (typeof SIZES)[number];

/** One true correction and whether the analysis found it. */
export interface ScoredCorrection {
  readonly spacing: Spacing;
  readonly size: Size;
  readonly over4px: boolean;
  readonly found: boolean;
  /** Whether plain peaks with one bar of 5 % of the largest speed find it: scipy.signal.find_peaks at prominence 0.05, which findPeaks equals (tests/movement/peaks.test.ts). */
  readonly foundByPlainPeaks: boolean;
}

/** Everything scored at one sampling rate. Times in ms. */
export interface Recovery {
  readonly movements: number;
  /** Signed errors: estimate minus truth. */
  readonly onset: number[];
  readonly primaryEnd: number[];
  readonly stop: number[];
  /** Error along of the primary endpoint minus its truth, in % of the amplitude. */
  readonly primaryBias: number[];
  readonly corrections: ScoredCorrection[];
  /** Movements in truth without any correction, and the corrections reported for them. */
  readonly pure: number;
  readonly falseAlarms: number;
  /** Movements without a row, or a row without a movement. */
  readonly lost: number;
  /** Presses while moving: hits, misses and false ones. */
  readonly inMotion: { readonly both: number; readonly missed: number; readonly false: number };
}

/** Simulates and analyses `seeds` times `movements` acquisitions at one rate. */
export function recover(sampleRateHz: number, seeds: readonly number[], movements: number): Recovery {
  const result = { movements: 0, onset: [] as number[], primaryEnd: [] as number[], stop: [] as number[], primaryBias: [] as number[] };
  const corrections: ScoredCorrection[] = [];
  const inMotion = { both: 0, missed: 0, false: 0 };
  let pure = 0;
  let falseAlarms = 0;
  let lost = 0;
  for (const seed of seeds) {
    const { recording, truth } = simulateRecording({ seed, movements, sampleRateHz });
    const rows = new Map(analyze(recording).map((row) => [row.trial, row]));
    const { segments } = kinematics(recording.trace, { sampleRateHz, nominalRateHz: sampleRateHz });
    for (const movement of truth.movements) {
      result.movements++;
      const row = rows.get(movement.trial);
      const { onset, primaryEnd, stop } = row?.times ?? {};
      if (row === undefined || onset === undefined || primaryEnd === undefined || stop === undefined) {
        lost++;
        continue;
      }
      result.onset.push(1000 * (onset - movement.onset!));
      result.primaryEnd.push(1000 * (primaryEnd - movement.primaryEnd!));
      result.stop.push(1000 * (stop - movement.stop!));
      result.primaryBias.push((100 * (row.errors.primary!.along! - movement.primaryError!.along)) / movement.amplitude);
      const scored = scoreCorrections(movement, row, plainPeaks(segments, movement));
      corrections.push(...scored);
      if (scored.length === 0) {
        pure++;
        falseAlarms += row.corrections.length;
      }
      const moving = movement.flags.includes("pressedInMotion");
      if (moving && row.pressedInMotion) inMotion.both++;
      else if (moving) inMotion.missed++;
      else if (row.pressedInMotion) inMotion.false++;
    }
  }
  return { ...result, corrections, pure, falseAlarms, lost, inMotion };
}

/** A true correction counts as found when a reported one, used once only, peaks between its onset and its end. */
function scoreCorrections(movement: TrueMovement, row: Acquisition, plain: readonly number[]): ScoredCorrection[] {
  const used = new Set<number>();
  const usedPlain = new Set<number>();
  let end = movement.components[0]!.onset + movement.components[0]!.duration;
  return movement.components.slice(1).map((component) => {
    const match = (peaks: readonly number[], taken: Set<number>): boolean => {
      const at = peaks.findIndex((peak, i) => !taken.has(i) && peak >= component.onset && peak <= component.onset + component.duration);
      if (at >= 0) taken.add(at);
      return at >= 0;
    };
    const found = match(
      row.corrections.map((c) => c.peak),
      used,
    );
    const scored = { ...binsOf(component, end, movement.amplitude), found, foundByPlainPeaks: match(plain, usedPlain) };
    end = component.onset + component.duration;
    return scored;
  });
}

/** The bins of a correction that follows a component ending at `end`. */
function binsOf(component: TrueComponent, end: number, amplitude: number): Omit<ScoredCorrection, "found" | "foundByPlainPeaks"> {
  const spacing = 1000 * (component.onset - end);
  const length = Math.hypot(component.dx, component.dy);
  const share = length / amplitude;
  return {
    spacing: SPACINGS[[-50, 0, 50, 150].filter((edge) => spacing >= edge).length]!,
    size: SIZES[[0.02, 0.05].filter((edge) => share >= edge).length]!,
    over4px: length > 4,
  };
}

/** Times of the peaks after the highest one that stand out by 5 % of it, between onset and press. */
function plainPeaks(segments: readonly KinematicSegment[], movement: TrueMovement): number[] {
  const segment = segments.find((s) => s.t0 <= movement.onset! && movement.press! <= s.t0 + s.x.length / s.sampleRateHz);
  if (segment === undefined) return [];
  const sample = (t: number): number => Math.round((t - segment.t0) * segment.sampleRateHz);
  const { index, prominence } = findPeaks(
    segment.speed,
    Math.max(0, sample(movement.onset! - 0.05)),
    Math.min(segment.x.length, sample(movement.press!)),
  );
  const top = index.reduce((best, at) => (segment.speed[at]! > segment.speed[best]! ? at : best), index[0] ?? 0);
  const least = 0.05 * segment.speed[top]!;
  return index.filter((at, k) => at > top && prominence[k]! >= least).map((at) => segment.t0 + at / segment.sampleRateHz);
}
