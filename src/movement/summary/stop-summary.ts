import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import { rmsEstimate } from "../../math/rms-estimate.js";
import type { Acquisition } from "../types.js";
import { type Consistency, consistencyOf, type RelativeConsistency, relativeConsistencyOf } from "./consistency.js";

/** A press later than this after the stop was waited with, seconds (a design choice). */
const LATE = 0.15;
/** A press is early beyond this: stops are known to some hundredth of a second. */
const EARLY = -0.01;

/** Stopping and pressing over a set of acquisitions. */
export interface StopSummary {
  readonly decelerationShare: Consistency;
  readonly speedSkew: Consistency;
  readonly peakDeceleration: RelativeConsistency;
  readonly stoppingTime: RelativeConsistency;
  readonly stoppingDistance: RelativeConsistency;
  /** Share of movements that passed the far edge of the target, and how far beyond the centre those went. */
  readonly overshoots: Estimate;
  readonly overshoot: Estimate;
  readonly settlingTime: Consistency;
  /** Waiting at rest before the press, seconds; 0 when pressed in motion. */
  readonly verification: Consistency;
  /** First press minus stop, seconds, signed. Its SD says how alike the timing is. */
  readonly afterStop: Consistency;
  /** Shares pressed more than 0.01 s before the stop (less is within its error), and more than 0.15 s after it. */
  readonly early: Estimate;
  readonly late: Estimate;
  /** Mean speed just before the press, unit/s, and as a share of the peak. */
  readonly pressSpeed: Estimate;
  readonly pressSpeedShare: Estimate;
  readonly pressDuration: RelativeConsistency;
  readonly slip: SlipSummary;
  /** Largest displacement about the press, median. */
  readonly disturbance: Estimate;
  readonly hitsByStop: HitsByStop;
}

/** What the pointer did between press and release. */
export interface SlipSummary {
  /** Mean along and across the movement axis: away from 0 it is a habit. */
  readonly along: Estimate;
  readonly across: Estimate;
  readonly length: Estimate;
  /** Root mean square length, with what rounding two positions adds (quantum^2 / 12 for each coordinate of each) taken out. */
  readonly rms: Estimate;
  /** Share of presses on the target that were released off it. */
  readonly out: Estimate;
  /** Share of presses after which the pointer left before the release; their slip ends there. */
  readonly cutShort: Estimate;
}

/** First presses by where the pointer had stopped: tells errors of stopping from errors of pressing. */
export interface HitsByStop {
  readonly insideHit: number;
  readonly insideMiss: number;
  readonly outsideHit: number;
  readonly outsideMiss: number;
  /** Share of hits among movements that stopped on the target, and off it. */
  readonly hitGivenInside: Estimate;
  readonly hitGivenOutside: Estimate;
}

/** Summarises how movements of rows with sound boundaries came to rest and were pressed. */
export function summarizeStops(moved: readonly Acquisition[], unit: string, level: number): StopSummary {
  const pressed = moved.filter((row) => row.times.press !== undefined);
  const stops = moved.flatMap((row) => row.stop ?? []);
  const pressings = pressed.flatMap((row) => row.pressing ?? []);
  const afterStop = pressings.flatMap((pressing) => pressing.afterStop ?? []);
  const aimed = moved.flatMap((row) => (row.stop?.overshoot === undefined ? [] : [{ by: row.stop.overshoot, half: row.width / 2 }]));
  const beyond = aimed.filter(({ by, half }) => by > half);
  const share = (k: number, n: number): Estimate => proportionEstimate(k, n, level);
  return {
    decelerationShare: consistencyOf(
      stops.map((stop) => stop.decelerationShare),
      "1",
      level,
    ),
    speedSkew: consistencyOf(
      stops.flatMap((stop) => stop.speedSkew ?? []),
      "1",
      level,
    ),
    peakDeceleration: relativeConsistencyOf(
      stops.flatMap((stop) => stop.peakDeceleration ?? []),
      `${unit}/s^2`,
      level,
    ),
    stoppingTime: relativeConsistencyOf(
      stops.flatMap((stop) => stop.stoppingTime ?? []),
      "s",
      level,
    ),
    stoppingDistance: relativeConsistencyOf(
      stops.flatMap((stop) => stop.stoppingDistance ?? []),
      unit,
      level,
    ),
    overshoots: share(beyond.length, aimed.length),
    overshoot: medianEstimate(
      beyond.map(({ by }) => by),
      unit,
      level,
    ),
    settlingTime: consistencyOf(
      stops.map((stop) => stop.settlingTime),
      "s",
      level,
    ),
    verification: consistencyOf(
      pressed.map((row) => row.budget.verification),
      "s",
      level,
    ),
    afterStop: consistencyOf(afterStop, "s", level),
    early: share(afterStop.filter((dt) => dt < EARLY).length, afterStop.length),
    late: share(afterStop.filter((dt) => dt > LATE).length, afterStop.length),
    pressSpeed: medianEstimate(
      pressings.flatMap((pressing) => pressing.speed ?? []),
      `${unit}/s`,
      level,
    ),
    pressSpeedShare: medianEstimate(
      pressed.flatMap((row) => (row.pressing?.speed === undefined || !row.peakSpeed ? [] : row.pressing.speed / row.peakSpeed)),
      "1",
      level,
    ),
    pressDuration: relativeConsistencyOf(
      pressings.flatMap((pressing) => pressing.duration ?? []),
      "s",
      level,
    ),
    slip: summarizeSlip(pressed, unit, level),
    disturbance: medianEstimate(
      pressings.flatMap((pressing) => pressing.disturbance ?? []),
      unit,
      level,
    ),
    hitsByStop: hitsByStop(pressed, level),
  };
}

function summarizeSlip(pressed: readonly Acquisition[], unit: string, level: number): SlipSummary {
  const slips = pressed.flatMap((row) => row.pressing?.slip ?? []);
  const along = slips.flatMap((slip) => slip.along ?? []);
  const across = slips.flatMap((slip) => slip.across ?? []);
  const lengths = slips.map((slip) => slip.length);
  const quanta = pressed.flatMap((row) => (row.pressing?.slip === undefined ? [] : (row.resolution?.quantum ?? 0)));
  const released = pressed.flatMap(({ pressing }) => pressing?.releasedInside ?? []);
  const held = pressed.flatMap(({ pressing }) => (pressing?.slip === undefined ? [] : pressing));
  return {
    along: meanEstimate(along, unit, level),
    across: meanEstimate(across, unit, level),
    length: medianEstimate(lengths, unit, level),
    rms: withoutRounding(rmsEstimate(lengths, unit, level), quanta),
    out: proportionEstimate(released.filter((inside) => !inside).length, released.length, level),
    cutShort: proportionEstimate(
      held.filter(({ departure, duration }) => departure !== undefined && duration !== undefined && departure < duration).length,
      held.length,
      level,
    ),
  };
}

/** The root mean square of displacements freed of rounding: their mean square less that of the rounding of two points, quantum^2 / 3. */
function withoutRounding(rms: Estimate, quanta: readonly number[]): Estimate {
  if (!rms.ok) return rms;
  const { value, interval, ...rest } = rms;
  const rounding = quanta.reduce((sum, quantum) => sum + (quantum * quantum) / 3, 0) / quanta.length;
  if (value * value <= rounding) return { ok: false, why: "belowResolution", unit: rms.unit, n: rms.n };
  const freed = (size: number): number => Math.sqrt(Math.max(0, size * size - rounding));
  return { value: freed(value), ...rest, ...(interval && { interval: [freed(interval[0]), freed(interval[1])] }) };
}

function hitsByStop(pressed: readonly Acquisition[], level: number): HitsByStop {
  const count = (inside: boolean, hit: boolean): number =>
    pressed.filter((row) => row.errors.stop?.inside === inside && (row.outcome === "hit") === hit).length;
  const table = {
    insideHit: count(true, true),
    insideMiss: count(true, false),
    outsideHit: count(false, true),
    outsideMiss: count(false, false),
  };
  return {
    ...table,
    hitGivenInside: proportionEstimate(table.insideHit, table.insideHit + table.insideMiss, level),
    hitGivenOutside: proportionEstimate(table.outsideHit, table.outsideHit + table.outsideMiss, level),
  };
}
