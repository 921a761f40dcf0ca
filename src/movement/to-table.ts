import { show } from "../math/require.js";
import type { Acquisition } from "./types.js";

/** One acquisition as a flat record; `null` where there is no value. Times in seconds, lengths in the space's unit. */
export interface TableRow {
  readonly trial: string;
  readonly target: string;
  readonly block: string;
  readonly outcome: Acquisition["outcome"];
  readonly pressedInMotion: boolean;
  readonly go: number;
  readonly onset: number | null;
  readonly peak: number | null;
  readonly primaryEnd: number | null;
  readonly stop: number | null;
  readonly press: number | null;
  readonly up: number | null;
  readonly end: number;
  readonly latency: number;
  readonly primary: number;
  readonly correction: number;
  readonly clutch: number;
  readonly verification: number;
  readonly recovery: number;
  readonly amplitude: number | null;
  readonly width: number;
  readonly peakSpeed: number | null;
  readonly corrections: number;
  readonly primaryAlong: number | null;
  readonly primaryAcross: number | null;
  readonly primaryRadial: number | null;
  readonly stopAlong: number | null;
  readonly stopAcross: number | null;
  readonly stopRadial: number | null;
  readonly pressAlong: number | null;
  readonly pressAcross: number | null;
  readonly pressRadial: number | null;
  /** Of the first correction, seconds after the end of the primary. */
  readonly correctionLatency: number | null;
  /** Of the first correction. */
  readonly correctionFromPeak: number | null;
  readonly correctionGain: number | null;
  readonly correctionPause: number | null;
  readonly correctionEfficiency: number | null;
  readonly decelerationShare: number | null;
  readonly speedSkew: number | null;
  readonly peakDeceleration: number | null;
  readonly stoppingTime: number | null;
  readonly overshoot: number | null;
  readonly settlingTime: number | null;
  readonly pressAfterStop: number | null;
  readonly pressSpeed: number | null;
  readonly pressDuration: number | null;
  readonly slipAlong: number | null;
  readonly slipAcross: number | null;
  readonly slipLength: number | null;
  readonly disturbance: number | null;
  /** Seconds from the first press to the departure, where that was seen. */
  readonly departure: number | null;
  readonly pathLength: number | null;
  readonly pathEfficiency: number | null;
  /** Path beyond need by phase. */
  readonly excessPrimary: number | null;
  readonly excessCorrection: number | null;
  readonly excessVerification: number | null;
  readonly excessRecovery: number | null;
  readonly reversals: number | null;
  readonly entries: number | null;
  readonly spectralArcLength: number | null;
  readonly logDimensionlessJerk: number | null;
  /** Flags joined by spaces. */
  readonly flags: string;
}

/**
 * Acquisition rows as flat records, the same keys in the same order for each: what a spreadsheet or a data frame wants.
 *
 * @param rows - rows of `analyze` or of an analyzer
 * @returns one record per row, in order; the input is not changed
 * @throws TypeError if `rows` is not an array
 * @see the meaning of every column: the fields of `Acquisition`
 * @example
 * ```ts
 * toTable([]); // => []
 * ```
 */
export function toTable(rows: readonly Acquisition[]): TableRow[] {
  if (!Array.isArray(rows)) throw new TypeError(`toTable: rows must be an array of acquisitions, got ${show(rows)}`);
  return rows.map(tableRow);
}

/** A function of its own and not a callback made anew in each call: its compiled code then lasts from one call to the next. */
function tableRow(row: Acquisition): TableRow {
  const { times, budget, errors } = row;
  return {
    trial: row.trial,
    target: row.target,
    block: row.block,
    outcome: row.outcome,
    pressedInMotion: row.pressedInMotion,
    go: times.go,
    onset: times.onset ?? null,
    peak: times.peak ?? null,
    primaryEnd: times.primaryEnd ?? null,
    stop: times.stop ?? null,
    press: times.press ?? null,
    up: times.up ?? null,
    end: times.end,
    ...budget,
    amplitude: row.amplitude ?? null,
    width: row.width,
    peakSpeed: row.peakSpeed ?? null,
    corrections: row.corrections.length,
    primaryAlong: errors.primary?.along ?? null,
    primaryAcross: errors.primary?.across ?? null,
    primaryRadial: errors.primary?.radial ?? null,
    stopAlong: errors.stop?.along ?? null,
    stopAcross: errors.stop?.across ?? null,
    stopRadial: errors.stop?.radial ?? null,
    pressAlong: errors.press?.along ?? null,
    pressAcross: errors.press?.across ?? null,
    pressRadial: errors.press?.radial ?? null,
    correctionLatency: row.corrections[0]?.latency ?? null,
    correctionFromPeak: row.corrections[0]?.fromPeak ?? null,
    correctionGain: row.corrections[0]?.gain ?? null,
    correctionPause: row.correctionPhase?.pause ?? null,
    correctionEfficiency: row.correctionPhase?.efficiency ?? null,
    decelerationShare: row.stop?.decelerationShare ?? null,
    speedSkew: row.stop?.speedSkew ?? null,
    peakDeceleration: row.stop?.peakDeceleration ?? null,
    stoppingTime: row.stop?.stoppingTime ?? null,
    overshoot: row.stop?.overshoot ?? null,
    settlingTime: row.stop?.settlingTime ?? null,
    pressAfterStop: row.pressing?.afterStop ?? null,
    pressSpeed: row.pressing?.speed ?? null,
    pressDuration: row.pressing?.duration ?? null,
    slipAlong: row.pressing?.slip?.along ?? null,
    slipAcross: row.pressing?.slip?.across ?? null,
    slipLength: row.pressing?.slip?.length ?? null,
    disturbance: row.pressing?.disturbance ?? null,
    departure: row.pressing?.departure ?? null,
    pathLength: row.economy?.pathLength ?? null,
    pathEfficiency: row.economy?.efficiency ?? null,
    excessPrimary: row.economy?.excess?.primary ?? null,
    excessCorrection: row.economy?.excess?.correction ?? null,
    excessVerification: row.economy?.excess?.verification ?? null,
    excessRecovery: row.economy?.excess?.recovery ?? null,
    reversals: row.economy?.reversals ?? null,
    entries: row.economy?.entries ?? null,
    spectralArcLength: row.economy?.spectralArcLength ?? null,
    logDimensionlessJerk: row.economy?.logDimensionlessJerk ?? null,
    flags: row.flags.join(" "),
  };
}
