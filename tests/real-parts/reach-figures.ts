// The choice-reach recordings in figures: every measure's distribution, shares, the timing of the press, and what the reference says of the same trials.
import { summarize } from "../../src/movement/summarize.js";
import type { Outcome } from "../validation/figure.js";
import { distributionFigure, estimated, printed, shareFigure } from "./measure.js";
import { BELOW_BEAT } from "./polled.js";
import { agreement, conditions } from "./reach-agreement.js";
import { REACH_MEASURES, SPOILED } from "./reach-measures.js";
import { type ReachRow, reachRows } from "./reach-rows.js";
import { spreadOf } from "./spread.js";

const REACH = "choice-reach recordings (Kieslich and Henninger 2017)";
const FACTS = "facts.json by NumPy";

/** Figures of the choice-reach recordings; skipped without them. */
export function reachFigures(): Outcome[] {
  const rows = reachRows();
  if (rows.length === 0) return [{ name: "corrections/choice-reach measures", skipped: REACH }];
  const smooth = reachRows({ cutoffHz: BELOW_BEAT });
  return [
    ...REACH_MEASURES.map((measure) => distributionFigure(rows, measure, REACH)),
    ...REACH_MEASURES.filter(({ name }) => SPOILED.includes(name)).map((measure) =>
      distributionFigure(smooth, { ...measure, name: `${measure.name}, filtered at ${BELOW_BEAT} Hz` }, REACH),
    ),
    ...shares(rows),
    ...timing(rows),
    ...conditions(rows),
    ...agreement(rows),
  ];
}

function shares(rows: readonly ReachRow[]): Outcome[] {
  const all = rows.flatMap(({ row }) => row.corrections);
  const share = (name: string, test: (row: ReachRow) => boolean): Outcome => shareFigure(name, rows, test, REACH);
  const { corrections } = summarize(rows.map(({ row }) => row));
  return [
    share("corrections/choice-reach movements without correction", ({ row }) => row.corrections.length === 0),
    shareFigure("corrections/choice-reach unnecessary", all, ({ unnecessary }) => unnecessary, REACH),
    shareFigure("corrections/choice-reach counter-productive", all, ({ counterProductive }) => counterProductive, REACH),
    shareFigure("corrections/choice-reach reversals", all, ({ reversal }) => reversal === true, REACH),
    share("corrections/choice-reach missing", ({ row }) => row.correctionPhase?.missing === true),
    printed(
      "corrections/choice-reach gain over all needed",
      estimated(corrections.gain.slope),
      "no unit; literature: see the single gains",
      REACH,
    ),
    share("stopping/choice-reach movements that swing about their end (damping)", ({ row }) => row.stop?.damping !== undefined),
    share("stopping/choice-reach movements beyond the far edge", ({ row }) => (row.stop?.overshoot ?? 0) > row.width / 2),
    share("stopping/choice-reach pressed in motion", ({ row }) => row.pressedInMotion),
    share("stopping/choice-reach pressed before the stop", ({ row }) => (row.pressing?.afterStop ?? 0) < 0),
    share("stopping/choice-reach pressed while the reading still changed", ({ facts }) => facts.finalHold_ms < 10),
    share("stopping/choice-reach pressed over 0.15 s after the stop", ({ row }) => (row.pressing?.afterStop ?? 0) > 0.15),
    share("stopping/choice-reach pressed over 0.15 s after the last change of the reading", ({ facts }) => facts.finalHold_ms > 150),
    share("movement/choice-reach rows flagged as clutched", ({ row }) => row.flags.includes("clutch")),
  ];
}

/** How alike the timing of the press is, over all and within each person; and how far the stop lies from the last change of the reading. */
function timing(rows: readonly ReachRow[]): Outcome[] {
  const { afterStop } = summarize(rows.map(({ row }) => row)).stopping;
  const persons = [...new Set(rows.map(({ person }) => person))];
  const own = persons.map((person) => summarize(rows.filter((row) => row.person === person).map(({ row }) => row)).stopping.afterStop);
  const late = rows.map(({ row, facts }) => facts.finalHold_ms / 1000 - row.pressing!.afterStop!);
  return [
    printed("stopping/choice-reach press minus stop, SD over all", estimated(afterStop.sd), "s", REACH),
    printed("stopping/choice-reach press minus stop, robust SD over all", estimated(afterStop.robustSd), "s", REACH),
    printed("stopping/choice-reach press minus stop, median SD of a person", spreadOf(own.map(({ sd }) => estimated(sd))).q50, "s", REACH),
    printed(
      "stopping/choice-reach press minus stop, median robust SD of a person",
      spreadOf(own.map(({ robustSd }) => estimated(robustSd))).q50,
      "s",
      REACH,
    ),
    printed("stopping/choice-reach stop after the last change of the reading, median", spreadOf(late).q50, "s", `${REACH}; ${FACTS}`),
  ];
}
