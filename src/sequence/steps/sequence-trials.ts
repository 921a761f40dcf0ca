import { show } from "../../math/require.js";
import { type Point, shrinkAt } from "../../movement/acquisition/local-frame.js";
import { positionAt } from "../../movement/acquisition/position-at.js";
import { targetAt } from "../../movement/acquisition/target-position.js";
import type { Acquisition } from "../../movement/types.js";
import { hasBoundaries } from "../../movement/unsound-rows.js";
import type { Recording, Target, Trace, Trial } from "../../trace/types.js";

/** A pointer silent for longer than this rests where it was, seconds. */
const SILENT = 0.1;
/** Two clock readings of one instant may differ by rounding: doubles near 1.7e9 s are 0.24 microseconds apart. */
const SAME_INSTANT = 1e-6;
/** A first stroke that covers less than this share of the distance is no aim at anything. */
const FIRST_SHARE = 0.25;

/** One row with what it met. Places are flat: in the trial's own frame, where one unit is one unit in either direction. */
export interface Visit {
  readonly row: Acquisition;
  readonly target: Target;
  /** Where the movement began; `undefined` when nobody knows. */
  readonly start: Point | undefined;
  /** The target's centre then. */
  readonly centre: Point;
  /** Goals still open then, this one aside, with their centres. */
  readonly others: readonly { readonly target: Target; readonly centre: Point }[];
  /** Where the first stroke of some length ended, when a faster one came after it: it, and not the fastest, tells where the movement was going. */
  readonly landing: Point | undefined;
  /** From go to onset, where both are trustworthy. */
  readonly latency: number | undefined;
}

/** One trial of kind `"sequence"` with its rows in the order of time. */
export interface SequenceTrial {
  readonly trial: Trial;
  readonly visits: readonly Visit[];
  /** Goals that lay open when the first movement began. */
  readonly open: readonly { readonly target: Target; readonly centre: Point }[];
  /** A goal came later than that. */
  readonly laterTargets: boolean;
}

/** Sorts the rows by trial: those of sequences with their surroundings, and those of single targets as they are. */
export function sequenceTrials(
  where: string,
  recording: Recording,
  rows: readonly Acquisition[],
): { sequences: SequenceTrial[]; singles: Acquisition[] } {
  const trials = new Map(recording.trials.map((trial) => [trial.id, trial]));
  const targets = new Map(recording.targets.map((target) => [target.id, target]));
  const singles: Acquisition[] = [];
  const groups = new Map<string, Acquisition[]>();
  for (const [i, row] of rows.entries()) {
    const trial = trials.get(row.trial);
    if (trial === undefined || !targets.has(row.target)) {
      const what = trial === undefined ? `trial ${show(row.trial)}` : `target ${show(row.target)}`;
      throw new RangeError(`${where}: rows[${i}] must come from this recording, got ${what}`);
    }
    if (trial.kind === "acquire") singles.push(row);
    if (trial.kind !== "sequence") continue;
    const group = groups.get(row.trial);
    if (group === undefined) groups.set(row.trial, [row]);
    else group.push(row);
  }
  const sequences = [...groups].map(([id, own]) => surround(recording, trials.get(id)!, own, targets));
  return { sequences, singles };
}

function surround(recording: Recording, trial: Trial, own: readonly Acquisition[], targets: ReadonlyMap<string, Target>): SequenceTrial {
  const rows = [...own].sort((a, b) => a.times.go - b.times.go);
  const goals = trial.goals.flatMap((id) => targets.get(id) ?? []);
  const begin = beginOf(rows[0]!);
  const { y: level } = positionAt(recording.trace, begin, SILENT) ?? targetAt(targets.get(rows[0]!.target)!, begin);
  const shrink = shrinkAt(recording.space, level);
  const flat = ({ x, y }: Point): Point => ({ x: x * shrink, y });
  const tried = new Set<string>();
  const visits = rows.map((row): Visit => {
    const t = beginOf(row);
    const start = positionAt(recording.trace, t, SILENT);
    const target = targets.get(row.target)!;
    const others = goals.filter((goal) => goal.id !== row.target && !tried.has(goal.id) && isOpen(goal, t));
    // a target that was missed is not gone for again: it went, or the person went on
    tried.add(row.target);
    const found = row.times.onset !== undefined && hasBoundaries(row);
    return {
      row,
      target,
      start: start && flat(start),
      centre: flat(targetAt(target, t)),
      others: others.map((other) => ({ target: other, centre: flat(targetAt(other, t)) })),
      landing: firstLanding(recording.trace, row, flat),
      latency: found ? row.budget.latency : undefined,
    };
  });
  const open = goals.filter((goal) => isOpen(goal, begin));
  return {
    trial,
    visits,
    open: open.map((target) => ({ target, centre: flat(targetAt(target, begin)) })),
    laterTargets: goals.some((goal) => goal.tShown > begin + SAME_INSTANT),
  };
}

/** When the movement of a row began, or could have. */
function beginOf({ times }: Acquisition): number {
  return times.onset ?? times.go;
}

/** End of the first stroke that covered a quarter of the distance, when it comes before the primary submovement. */
function firstLanding(trace: Trace, row: Acquisition, flat: (point: Point) => Point): Point | undefined {
  const { amplitude, submovements, times } = row;
  if (amplitude === undefined || times.peak === undefined) return undefined;
  const long = submovements.find(({ dx, dy }) => dx * dx + dy * dy >= (FIRST_SHARE * amplitude) ** 2);
  if (long === undefined || long.peak >= times.peak) return undefined;
  const place = positionAt(trace, long.end, SILENT);
  return place && flat(place);
}

function isOpen(goal: Target, t: number): boolean {
  return goal.tShown <= t + SAME_INSTANT && (goal.tGone === undefined || goal.tGone > t + SAME_INSTANT);
}
