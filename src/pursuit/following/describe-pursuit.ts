import type { Estimate } from "../../math/estimate.js";
import { isTrack } from "../../movement/acquisition/target-position.js";
import type { Recording, Target, Track, Trial } from "../../trace/types.js";
import type { Pursuit, PursuitWarning } from "../types.js";
import { catchUpSummary } from "./catch-up.js";
import { changeSummary } from "./changes.js";
import { describeError, errorColumns } from "./error-of.js";
import { emptyPair } from "./flatten.js";
import { errorFromDelayed, velocityGain } from "./gain.js";
import { type CorrelationLag, lagByCorrelation } from "./lag-by-correlation.js";
import { moveEstimate } from "./move-estimate.js";
import { isPeriodic } from "./periodic.js";
import { commonDelay, type DrivenAxes, responseOf } from "./response-of.js";
import { sizeEffect } from "./size-effect.js";
import { countOf, type Stretch } from "./stretch.js";
import { targetChanges } from "./target-changes.js";
import { timeOnTarget } from "./time-on-target.js";
import { ratioOverUnits, sumUp, unitsOf } from "./units.js";

/** What is asked of every trial; all resolved. */
export interface PursuitSettings {
  /** Rate of the recording's grid, Hz; 0 when it has none. */
  readonly sampleRateHz: number;
  readonly level: number;
  readonly seed: number;
  readonly resamples: number;
  readonly frameHz: number | undefined;
  readonly driven: DrivenAxes;
  /** Noise of one velocity component, unit/s, and step of the readings. */
  readonly noise: number;
  readonly quantum: number;
}

/** Less than this is not described, seconds; less than that is warned of. */
const LEAST = 2;
const SHORT = 20;
/** On target for less than this share of the time, or for less than this share not: saturated. */
const SATURATED = 0.05;
const ENOUGH_CHANGES = 10;

/** All figures of one trial with one target. `failure`: why there is nothing to describe. */
export function describePursuit(
  recording: Recording,
  trial: Trial,
  target: Target | undefined,
  found: Stretch | undefined,
  failure: Pursuit["status"] | undefined,
  settings: PursuitSettings,
): Pursuit {
  const { level, seed, resamples, frameHz, driven, noise, quantum } = settings;
  const { unit } = recording.space;
  const long = found !== undefined && countOf(found) >= LEAST * found.rate;
  const status = failure ?? (long ? "ok" : "tooFew");
  const stretch = status === "ok" ? found! : nothing(settings.sampleRateHz || 1);
  const { rate, t0, width, pieces } = stretch;
  const units = unitsOf(stretch);
  const errors = errorColumns(stretch);
  const byCorrelation = lagByCorrelation(stretch.velocity, pieces, units, { rate, level, seed, resamples });
  const frameLag = frameHz === undefined ? 0 : 0.5 / frameHz;
  const behind = ratioOverUnits(
    sumUp(
      stretch,
      units,
      (i) => -errors.along[i]!,
      (i) => errors.moves[i] === 1,
    ),
    sumUp(
      stretch,
      units,
      (i) => errors.speed[i]!,
      (i) => errors.moves[i] === 1,
    ),
    "plain",
    "s",
    level,
  );
  const shift = shiftFrom(byCorrelation, behind) * rate;
  const delayed = errorFromDelayed(stretch.smooth, pieces, shift);
  const square = (i: number): number => delayed.x[i]! ** 2 + delayed.y[i]! ** 2;
  const response = responseOf(stretch, driven, byCorrelation.constant, level);
  const moving = target !== undefined && isTrack(target.at) && status === "ok" ? { ...target, at: target.at as Track } : undefined;
  const changes = moving === undefined ? [] : targetChanges(recording.space, moving);
  const changeFigures = changeSummary(stretch, errors, changes, frameLag, unit, { level, seed, resamples });
  const onTarget = timeOnTarget(stretch, units, Math.max(trial.tStart, target?.tShown ?? trial.tStart), level);
  const used = countOf(stretch);
  const span = pieces.length === 0 ? 0 : pieces.at(-1)!.end - stretch.acquired;

  const warnings: PursuitWarning[] = [];
  const warn = (warning: PursuitWarning, when: boolean): void => {
    if (when && status === "ok") warnings.push(warning);
  };
  warn("shortRecord", used < SHORT * rate);
  warn("notAcquired", stretch.acquisition === "time");
  warn("missingSamples", used < span);
  warn("saturatedOff", onTarget.share.ok && onTarget.share.value < SATURATED);
  warn("saturatedOn", onTarget.share.ok && onTarget.share.value > 1 - SATURATED);
  warn("periodicTarget", isPeriodic(stretch.velocity, pieces, rate));
  warn("frameRateUnknown", frameHz === undefined);
  warn("noWholePeriods", response.noWholePeriods);
  warn("fewChanges", changeFigures.events.length > 0 && changeFigures.events.length < ENOUGH_CHANGES);

  const meanOf = (value: (i: number) => number): number => {
    const sums = sumUp(stretch, [], value);
    return sums.n > 0 ? sums.total / sums.n : 0;
  };
  const meanSpeed = meanOf((i) => errors.speed[i]!);
  const meanWidth = meanOf((i) => width[i]!);
  return {
    trial: trial.id,
    target: target?.id ?? "",
    status,
    samples: {
      from: used > 0 ? t0 + pieces[0]!.start / rate : trial.tStart,
      to: used > 0 ? t0 + (pieces.at(-1)!.end - 1) / rate : trial.tStart,
      duration: used / rate,
      count: used,
      sampleRateHz: settings.sampleRateHz,
      units: units.length,
      acquisition: stretch.acquisition,
    },
    motion: {
      meanSpeed,
      meanWidth,
      widthsPerSecond: meanOf((i) => errors.speed[i]! / width[i]!),
      movingShare: meanOf((i) => errors.moves[i]!),
    },
    error: {
      ...describeError(stretch, units, errors, undefined, unit, level),
      inWidths: describeError(stretch, units, errors, (i) => width[i]!, "W", level),
    },
    onTarget,
    lag: {
      byCorrelation: moveEstimate(byCorrelation.lag, -frameLag),
      peak: byCorrelation.peak,
      candidates: byCorrelation.candidates.map((lag) => lag - frameLag),
      byPhase: moveEstimate(commonDelay([response.x.delay, response.y.delay]), -frameLag),
      atConstantVelocity: moveEstimate(behind, -frameLag),
      frameLag,
      rmsWithoutLag: ratioOverUnits(
        sumUp(stretch, units, square, (i) => delayed.has[i] === 1),
        undefined,
        "root",
        unit,
        level,
      ),
    },
    gain: velocityGain(stretch, units, shift, level),
    explained: byCorrelation.explained,
    response: { x: response.x, y: response.y },
    catchUp: catchUpSummary(stretch, units, errors, { noise, quantum, shift, unit, level }),
    changes: changeFigures,
    bySize: sizeEffect(stretch, units, delayed, unit, { level, seed, resamples }),
    warnings,
  };
}

/** The lag by which the target is taken earlier, seconds: of the correlation, of constant velocity where that has none, else 0. */
function shiftFrom({ lag, constant }: CorrelationLag, behind: Estimate): number {
  if (lag.ok) return lag.value;
  return constant && behind.ok ? behind.value : 0;
}

/** A stretch without samples: every figure of it says why it is none. */
function nothing(rate: number): Stretch {
  const none = new Uint8Array(0);
  const columns = { smooth: emptyPair(0), velocity: emptyPair(0), raw: emptyPair(0), width: new Float64Array(0) };
  return { t0: 0, rate, ...columns, inside: none, known: none, pieces: [], acquired: 0, acquisition: "time" };
}
