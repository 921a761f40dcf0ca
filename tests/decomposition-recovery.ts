// Recovery of simulated corrections by decomposition, beside the peaks of speed on the same movements: the fixed distributions, one scoring for both.

import { findSubmovements } from "../src/movement/bell/find-submovements.js";
import { decomposeSubmovements } from "../src/movement/decompose-submovements.js";
import { coveredShare } from "../src/simulate/compose-movement.js";
import { simulateRecording } from "../src/simulate/index.js";
import type { TrueComponent, TrueMovement } from "../src/simulate/truth.js";
import { kinematics } from "../src/trace/kinematics.js";
import type { KinematicSegment } from "../src/trace/uniform.js";

/** The bins of onset against the end of the component before, ms. */
export const SPACINGS = ["below -50", "-50..0", "0..50", "50..150", "above 150"] as const;
/** The two bins in which a correction overlaps the component before it. */
export const OVERLAPPING: readonly (typeof SPACINGS)[number][] = ["below -50", "-50..0"];

/** Corrections no larger than this are neither asked for nor held against the finder, px. */
const LARGE = 4;
/** A found displacement must point within 60 degrees of the true one. */
const LEAST_COSINE = 0.5;

/** A component as either method reports it: when half of its displacement was made, and the displacement. */
interface FoundPart {
  readonly middle: number;
  readonly dx: number;
  readonly dy: number;
}

/** One method at one sampling rate. */
export interface MethodScore {
  /** Per bin: true corrections over 4 px, those found, and reports without a truth in movements that hold a correction of the bin. */
  readonly bins: Record<(typeof SPACINGS)[number], { true: number; found: number; false: number }>;
  /** Recall in the two overlapping bins together. */
  readonly overlapRecall: number;
  /** Reports without a truth in movements without corrections, per such movement. */
  readonly falsePerPure: number;
  readonly falseInPure: number;
  /** F1 over all corrections over 4 px and all reports in all movements. */
  readonly f1: number;
}

export interface DecompositionScore {
  readonly movements: number;
  /** Movements left out, because samples are missing between go and the press. */
  readonly lost: number;
  readonly decomposition: MethodScore;
  readonly peaks: MethodScore;
  /** Of the corrections that decomposition found: size of the error of the displacement as a share of it, and of the middle, ms. */
  readonly displacementErrors: number[];
  readonly middleErrors: number[];
  /** Time of one decomposition, ms, in order of the movements. */
  readonly times: number[];
}

/** Simulates `movements` acquisitions per seed at one rate and scores both methods on the samples between go and the press. */
export function scoreDecomposition(sampleRateHz: number, seeds: readonly number[], movements: number): DecompositionScore {
  const decomposition = new Tally();
  const peaks = new Tally();
  const displacementErrors: number[] = [];
  const middleErrors: number[] = [];
  const times: number[] = [];
  let scored = 0;
  let lost = 0;
  for (const seed of seeds) {
    const { recording, truth } = simulateRecording({ seed, movements, sampleRateHz });
    const { segments, noiseFloor } = kinematics(recording.trace, { sampleRateHz, nominalRateHz: sampleRateHz, quantum: 1 });
    const noise = noiseFloor.speed;
    for (const movement of truth.movements) {
      const { go, press } = movement;
      const segment = segments.find((s) => s.t0 <= go && press! <= s.t0 + (s.x.length - 1) / s.sampleRateHz);
      if (press === undefined || segment === undefined) {
        lost++;
        continue;
      }
      scored++;
      const start = Math.ceil((go - segment.t0) * sampleRateHz);
      const end = Math.floor((press - segment.t0) * sampleRateHz) + 1;
      const settings = { noise, quantum: 1, prominenceShare: 0.05, minSpacing: 0.06 };
      const { submovements } = findSubmovements(segment, { start, end, from: start, until: end - 1 }, settings);
      peaks.add(
        movement,
        submovements.map((s) => ({ dx: s.dx, dy: s.dy, middle: middleOf(segment, s.start, s.end, s.dx, s.dy) })),
      );
      const profile = fromMovement(segment, start, end, 4 * noise);
      const before = performance.now();
      const { components } = decomposeSubmovements(profile, { noiseFloor: noise });
      times.push(performance.now() - before);
      const parts = components.map((c) => ({ dx: c.dx, dy: c.dy, middle: c.onset + c.duration / (1 + Math.exp(-(c.mu ?? 0))) }));
      for (const { found, is } of decomposition.add(movement, parts)) {
        displacementErrors.push(Math.hypot(found.dx - is.dx, found.dy - is.dy) / Math.hypot(is.dx, is.dy));
        middleErrors.push(1000 * Math.abs(found.middle - middleOfTruth(is)));
      }
    }
  }
  return { movements: scored, lost, decomposition: decomposition.score(), peaks: peaks.score(), displacementErrors, middleErrors, times };
}

/** The samples from 50 ms before the first that moves. */
function fromMovement(segment: KinematicSegment, start: number, end: number, moving: number) {
  const { speed, sampleRateHz } = segment;
  let first = start;
  while (first < end && speed[first]! < moving) first++;
  const from = Math.max(0, first - Math.round(0.05 * sampleRateHz));
  return { t0: segment.t0 + from / sampleRateHz, sampleRateHz, vx: segment.vx.slice(from, end), vy: segment.vy.slice(from, end) };
}

/** Time at which half of the displacement between two times has been made along its own line. */
function middleOf({ x, y, t0, sampleRateHz }: KinematicSegment, start: number, end: number, dx: number, dy: number): number {
  const first = Math.round((start - t0) * sampleRateHz);
  const last = Math.round((end - t0) * sampleRateHz);
  let i = first;
  while (i < last && (x[i]! - x[first]!) * dx + (y[i]! - y[first]!) * dy < (dx * dx + dy * dy) / 2) i++;
  return t0 + i / sampleRateHz;
}

function middleOfTruth({ onset, duration, bell }: TrueComponent): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 40; i++) {
    const s = (low + high) / 2;
    if (coveredShare(bell, s) < 0.5) low = s;
    else high = s;
  }
  return onset + duration * low;
}

class Tally {
  private readonly bins = Object.fromEntries(SPACINGS.map((name) => [name, { true: 0, found: 0, false: 0 }])) as MethodScore["bins"];
  private pure = 0;
  private falseInPure = 0;
  private false = 0;

  /** Matches reports to true corrections, the largest first, each report once; returns the matches over 4 px. The first report is the primary. */
  add(movement: TrueMovement, reports: readonly FoundPart[]): { found: FoundPart; is: TrueComponent }[] {
    const components = movement.components.filter((c) => c.role !== "recovery");
    const open = [...reports].sort((a, b) => a.middle - b.middle).slice(1);
    const size = (c: { dx: number; dy: number }): number => Math.hypot(c.dx, c.dy);
    const corrections = components.slice(1).map((is, k) => {
      const spacing = 1000 * (is.onset - components[k]!.onset - components[k]!.duration);
      return { is, bin: SPACINGS[[-50, 0, 50, 150].filter((edge) => spacing >= edge).length]! };
    });
    const matches: { found: FoundPart; is: TrueComponent }[] = [];
    const touched = new Set<(typeof SPACINGS)[number]>();
    for (const { is, bin } of [...corrections].sort((a, b) => size(b.is) - size(a.is))) {
      const close = open
        .filter((r) => r.middle >= is.onset && r.middle <= is.onset + is.duration)
        .filter((r) => r.dx * is.dx + r.dy * is.dy >= LEAST_COSINE * size(r) * size(is))
        .sort((a, b) => Math.abs(a.middle - middleOfTruth(is)) - Math.abs(b.middle - middleOfTruth(is)));
      const found = close[0];
      if (found !== undefined) open.splice(open.indexOf(found), 1);
      if (size(is) <= LARGE) continue;
      touched.add(bin);
      this.bins[bin].true++;
      if (found === undefined) continue;
      this.bins[bin].found++;
      matches.push({ found, is });
    }
    for (const bin of touched) this.bins[bin].false += open.length;
    this.false += open.length;
    if (corrections.length === 0) {
      this.pure++;
      this.falseInPure += open.length;
    }
    return matches;
  }

  score(): MethodScore {
    const all = Object.values(this.bins);
    const total = (of: readonly { true: number; found: number }[], key: "true" | "found"): number => of.reduce((sum, b) => sum + b[key], 0);
    const overlapping = OVERLAPPING.map((name) => this.bins[name]);
    return {
      bins: this.bins,
      overlapRecall: total(overlapping, "found") / total(overlapping, "true"),
      falsePerPure: this.falseInPure / this.pure,
      falseInPure: this.falseInPure,
      f1: (2 * total(all, "found")) / (total(all, "true") + total(all, "found") + this.false),
    };
  }
}
