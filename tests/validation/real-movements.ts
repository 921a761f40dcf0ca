// Movements on real recordings: the acquisition rows of a choice task, and movements without targets in free use of a mouse.

import { positionAt } from "../../src/movement/acquisition/position-at.js";
import { analyze } from "../../src/movement/analyze.js";
import { segmentMovements } from "../../src/movement/segment-movements.js";
import type { Recording } from "../../src/trace/types.js";
import { choiceReachPeople, convertChoiceReach, START_BUTTON } from "../data/convert-choice-reach.js";
import { convertOfficeRemote, officeRemoteNames } from "../data/convert-office-remote.js";
import type { Outcome } from "./figure.js";

const REACH = "choice-reach recordings (Kieslich and Henninger 2017)";
const OFFICE = "office-remote recordings (Fulop et al. 2016)";
/** Set before the first run: presses about which the pointer had to be moved should end a movement that was found, but for those in breaks of the recording. */
const OFFICE_BAR = 0.85;
/** A press this far from the one before needed a movement, px. */
const MOVED = 5;
/** A movement ends at a press when it ends this near to it, px and seconds. */
const NEAR = 5;
const AT_MOST_AFTER = 0.1;

export async function figures(): Promise<readonly Outcome[]> {
  return [...reachFigures(), ...officeFigures()];
}

function reachFigures(): Outcome[] {
  const people = choiceReachPeople();
  if (people.length === 0) return [{ name: "movement/choice-reach trials with one acquisition in place", skipped: REACH }];
  let trials = 0;
  let inPlace = 0;
  let corrections = 0;
  for (const person of people) {
    const recording = convertChoiceReach(person);
    const rows = analyze(recording);
    for (const trial of recording.trials) {
      trials++;
      const own = rows.filter((row) => row.trial === trial.id);
      const row = own[0];
      const start = row?.times.onset === undefined ? undefined : positionAt(recording.trace, row.times.onset, 0.05);
      const began =
        start !== undefined &&
        Math.abs(start.x - START_BUTTON.x) <= START_BUTTON.width / 2 &&
        Math.abs(start.y - START_BUTTON.y) <= START_BUTTON.height / 2;
      if (own.length === 1 && began && row?.errors.press?.inside) inPlace++;
      corrections += row?.corrections.length ?? 0;
    }
  }
  return [
    {
      name: "movement/choice-reach trials with one acquisition in place",
      value: inPlace / trials,
      bar: ">= 0.95",
      ok: inPlace >= 0.95 * trials,
      source: REACH,
    },
    { name: "movement/choice-reach trials", value: trials, bar: "= 304", ok: trials === 304, source: `${REACH}; facts.json by NumPy` },
    { name: "movement/choice-reach corrections per trial", value: corrections / trials, bar: "printed", ok: true, source: REACH },
  ];
}

function officeFigures(): Outcome[] {
  const names = officeRemoteNames();
  if (names.length === 0) return [{ name: "movement/office-remote presses that end a found movement", skipped: OFFICE }];
  return names.flatMap((name): Outcome[] => {
    const recording = convertOfficeRemote(name);
    const { status, movements, missing } = segmentMovements(recording.trace);
    if (status !== "ok") return [];
    const { needed, ended } = pressesAfterMovement(recording, movements);
    return [
      { name: `movement/office-remote ${name} movements found`, value: movements.length, bar: "printed", ok: true, source: OFFICE },
      { name: `movement/office-remote ${name} breaks with a jump`, value: missing, bar: "printed", ok: true, source: OFFICE },
      {
        name: `movement/office-remote ${name} presses that end a found movement (n ${needed})`,
        value: ended / needed,
        bar: `>= ${OFFICE_BAR}`,
        ok: ended >= OFFICE_BAR * needed,
        source: OFFICE,
      },
    ];
  });
}

/** Presses away from the one before, and how many of them lie where the last movement before them ended. */
function pressesAfterMovement(
  { presses, trace }: Recording,
  movements: ReturnType<typeof segmentMovements>["movements"],
): { needed: number; ended: number } {
  let needed = 0;
  let ended = 0;
  for (const [i, press] of presses.entries()) {
    const before = presses[i - 1];
    const at = positionAt(trace, press.t, 0.05);
    const from = before === undefined ? undefined : positionAt(trace, before.t, 0.05);
    if (before === undefined || at === undefined || from === undefined || Math.hypot(at.x - from.x, at.y - from.y) <= MOVED) continue;
    needed++;
    const last = movements.filter((m) => m.peakTime > before.t && m.peakTime <= press.t).at(-1);
    if (last !== undefined && last.end <= press.t + AT_MOST_AFTER && Math.hypot(last.to.x - at.x, last.to.y - at.y) <= NEAR) ended++;
  }
  return { needed, ended };
}
