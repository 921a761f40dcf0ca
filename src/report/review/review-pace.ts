import { medianInPlace } from "../../math/median.js";
import type { Acquisition } from "../../movement/types.js";
import { advisePace, type PaceBlock } from "../../pacing/advise-pace.js";
import { paceTrials } from "../../pacing/pace-trials.js";
import { recommendPace } from "../../pacing/recommend-pace.js";
import type { PaceAdvice } from "../../pacing/types.js";
import type { PracticeReview, SessionSummary } from "../types.js";

/** Trials from which on a block may decide about the pace. */
const TRIALS_TO_DECIDE = 40;

/**
 * The pace that a wanted share of hits asks for, from the recent sessions with their blocks as paces, and whether to change the one that is practised. The
 * advice looks at the pace most rows were made at (of several, the middle one): blocks that were slow or fast on purpose are no change of mind.
 */
export function reviewPace(now: readonly SessionSummary[], wanted: number, level: number): PracticeReview["pace"] {
  const rows = now.flatMap((session) => session.rows);
  const { trials } = paceTrials(rows);
  if (trials.movementTime.length === 0) return {};
  const usual = usualBlock(rows);
  const advice = adviseOn(
    now.map((session) => rowsOf(session.rows, usual)),
    wanted,
  );
  return {
    recommended: recommendPace(trials, { wanted, unit: now[0]!.space.unit, level }),
    ...(advice && { advice }),
  };
}

function rowsOf(rows: readonly Acquisition[], block: string): Acquisition[] {
  return rows.filter((row) => row.block === block);
}

/** The block name with most rows; of several, the one whose movements take a middle time. */
function usualBlock(rows: readonly Acquisition[]): string {
  const names = [...new Set(rows.map(({ block }) => block))];
  const counts = names.map((name) => rowsOf(rows, name).length);
  const most = names.filter((_, i) => counts[i] === Math.max(...counts));
  const time = (name: string): number => {
    const { movementTime } = paceTrials(rowsOf(rows, name)).trials;
    return movementTime.length === 0 ? 0 : medianInPlace(movementTime.slice());
  };
  return most.sort((a, b) => time(a) - time(b))[Math.floor((most.length - 1) / 2)]!;
}

/** One block per session where the last one is long enough, else all together. */
function adviseOn(sessions: readonly (readonly Acquisition[])[], wanted: number): PaceAdvice | undefined {
  const blocks = sessions.filter(({ length }) => length > 0).map(blockOf);
  const last = blocks[blocks.length - 1];
  if (last === undefined) return undefined;
  if (last.movementTime.length >= TRIALS_TO_DECIDE)
    return advisePace(
      blocks.filter(({ movementTime }) => movementTime.length > 0),
      { wanted },
    );
  const together = blockOf(sessions.flat());
  return together.movementTime.length === 0 ? undefined : advisePace(together, { wanted });
}

function blockOf(rows: readonly Acquisition[]): PaceBlock {
  const { trials } = paceTrials(rows);
  const errors = rows.flatMap(({ errors, flags }) => (errors.primary === undefined || flags.length > 0 ? [] : errors.primary.radial));
  return { movementTime: trials.movementTime, hit: trials.hit, pressed: trials.pressed, primaryError: Float64Array.from(errors) };
}
