// The figures of the reference for the choice-reach recordings, from recordings as this project reads them. Definitions: facts.json there.
import type { Recording, Target, Trial } from "../../src/trace/types.js";
import { START_BUTTON } from "./convert-choice-reach.js";

type Figures = Record<string, number | string | boolean | null>;

/** Counts over all recordings and the figures of each trial, by the names of the reference. */
export function choiceReachFacts(recordings: readonly Recording[]): { counts: Record<string, number>; trials: Record<string, Figures> } {
  const trials: Record<string, Figures> = {};
  const intervals: number[] = [];
  let samples = 0;
  let held = 0;
  for (const recording of recordings) {
    for (const trial of recording.trials) {
      const path = pathOf(recording, trial);
      const goal = recording.targets.find((target) => target.id === trial.goals[0])!;
      trials[trial.id] = trialFigures(path, trial, goal);
      samples += path.length;
      for (let i = 1; i < path.length; i++) {
        intervals.push(Math.round((path[i]!.t - path[i - 1]!.t) * 1e6) / 1e3);
        if (path[i]!.x === path[i - 1]!.x && path[i]!.y === path[i - 1]!.y) held++;
      }
    }
  }
  const all = Object.values(trials);
  const countIf = (test: (figures: Figures) => boolean): number => all.filter(test).length;
  const sorted = [...intervals].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const durations = all.map((figures) => figures.duration_ms as number);
  const counts = {
    participants: recordings.length,
    trials: all.length,
    samples,
    correct: countIf((figures) => figures.correct === 1),
    endInside: countIf((figures) => figures.endInside === true),
    startInsideStartButton: countIf((figures) => figures.startInsideStartButton === true),
    medianInterval_ms: sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2,
    meanInterval_ms: intervals.reduce((sum, dt) => sum + dt, 0) / intervals.length,
    share10ms: intervals.filter((dt) => dt === 10).length / intervals.length,
    zeroIntervals: intervals.filter((dt) => dt === 0).length,
    backwardSteps: intervals.filter((dt) => dt < 0).length,
    intervalsOver20ms: intervals.filter((dt) => dt > 20).length,
    intervalsOver50ms: intervals.filter((dt) => dt > 50).length,
    longestInterval_ms: sorted.at(-1)!,
    samplesAtSamePositionAsPrevious: held,
    trialsWithoutAnyMovement: countIf((figures) => figures.firstChange_ms === null),
    trialsMovingAtFirstInterval: countIf((figures) => figures.firstChange_ms !== null && (figures.firstChange_ms as number) <= 12),
    shortestTrial_ms: Math.min(...durations),
    longestTrial_ms: Math.max(...durations),
  };
  return { counts, trials };
}

interface Point {
  readonly t: number;
  readonly x: number;
  readonly y: number;
}

function pathOf({ trace }: Recording, trial: Trial): Point[] {
  const path: Point[] = [];
  for (let i = 0; i < trace.t.length; i++) {
    if (trace.t[i]! >= trial.tStart && trace.t[i]! <= trial.tEnd!) path.push({ t: trace.t[i]!, x: trace.x[i]!, y: trace.y[i]! });
  }
  return path;
}

function trialFigures(path: readonly Point[], trial: Trial, goal: Target): Figures {
  const [start, end] = [path[0]!, path.at(-1)!];
  const at = (point: Point | undefined): number | null => (point === undefined ? null : round((point.t - start.t) * 1000));
  const from = (point: Point): number => Math.hypot(point.x - start.x, point.y - start.y);
  const steps = path.slice(1).map((point, i) => Math.hypot(point.x - path[i]!.x, point.y - path[i]!.y));
  const pathLength = steps.reduce((sum, step) => sum + step, 0);
  const straight = from(end);
  let across = 0;
  for (const point of path) {
    // to the left of travel on a screen whose y points down
    const value = ((point.x - start.x) * (end.y - start.y) - (point.y - start.y) * (end.x - start.x)) / straight;
    if (Math.abs(value) > Math.abs(across)) across = value;
  }
  const directions = path.slice(1).flatMap((point, i) => (point.x === path[i]!.x ? [] : [Math.sign(point.x - path[i]!.x)]));
  const speeds = steps.flatMap((step, i) =>
    path[i + 1]!.t > path[i]!.t ? [(step / round((path[i + 1]!.t - path[i]!.t) * 1000)) * 1000] : [],
  );
  const lastMove = steps.reduce((last, step, i) => (step > 0 ? i : last), -1);
  const { x: cx, y: cy } = goal.at as Point;
  const shape = goal.shape as { width: number; height: number };
  const inside = (point: Point, x: number, y: number, width: number, height: number): boolean =>
    Math.abs(point.x - x) <= width / 2 && Math.abs(point.y - y) <= height / 2;
  return {
    participant: trial.block,
    condition: trial.condition.word!,
    side: trial.condition.side!,
    correct: trial.condition.correct!,
    samples: path.length,
    duration_ms: at(end),
    responseTime_ms: at(end),
    firstChange_ms: at(path.find((point) => from(point) > 0)),
    leave20_ms: at(path.find((point) => from(point) > 20)),
    finalHold_ms: lastMove < 0 ? null : round((end.t - path[lastMove + 1]!.t) * 1000),
    pathLength_px: pathLength,
    straight_px: straight,
    efficiency: straight / pathLength,
    acrossExtreme_px: across,
    towardOther_px: trial.condition.side === "right" ? across : -across,
    xReversals: directions.filter((direction, i) => i > 0 && direction !== directions[i - 1]).length,
    maxRawSpeed_px_per_s: Math.max(...speeds),
    endInside: inside(end, cx, cy, shape.width, shape.height),
    startInsideStartButton: inside(start, START_BUTTON.x, START_BUTTON.y, START_BUTTON.width, START_BUTTON.height),
  };
}

/** Milliseconds without the rounding dust of seconds. */
function round(ms: number): number {
  return Math.round(ms * 1e6) / 1e6;
}
