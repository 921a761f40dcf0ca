// Uneven steps in figures: how strong they are in the choice-reach recordings, and what they do to simulated movements of one stroke.
import { analyze } from "../../src/movement/analyze.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import type { Outcome } from "../validation/figure.js";
import { printed } from "./measure.js";
import { BELOW_BEAT, polled, pureReaches, stepRepetition } from "./polled.js";
import { mean, spreadOf } from "./spread.js";

const REACH = "choice-reach recordings (Kieslich and Henninger 2017)";
const SEED = 20261126;

/** The uneven steps that a mouse of 125 Hz leaves when it is asked at 100 Hz: in the recordings, and what they do to movements of one stroke. */
export function pollingFigures(movements: number): Outcome[] {
  const people = choiceReachPeople().map(convertChoiceReach);
  const plain = pureReaches(movements, SEED);
  const uneven = polled(plain);
  const simulated = "simulated, one stroke each, truth 0";
  const count = (rows: ReturnType<typeof analyze>): number => mean(rows.map((row) => row.corrections.length));
  const jerk = (rows: ReturnType<typeof analyze>): number => spreadOf(rows.flatMap((row) => row.economy?.logDimensionlessJerk ?? [])).q50;
  const [fine, coarse, filtered] = [analyze(plain), analyze(uneven), analyze(uneven, { cutoffHz: BELOW_BEAT })];
  const name = "corrections/simulated strokes";
  return [
    ...(people.length === 0
      ? []
      : [
          printed(
            "trace/choice-reach steps that repeat after 4 samples",
            stepRepetition(people, 4),
            "1 for 125 Hz asked at 100 Hz, 0 for even steps",
            REACH,
          ),
          printed(
            "trace/choice-reach steps that repeat after 3 samples",
            stepRepetition(people, 3),
            "-1/3 for 125 Hz asked at 100 Hz",
            REACH,
          ),
        ]),
    printed(
      "trace/simulated 125 Hz asked at 100 Hz, steps that repeat after 4 samples",
      stepRepetition([uneven], 4),
      "1 by construction",
      simulated,
    ),
    printed(`${name} of 125 Hz, corrections per movement`, count(fine), "truth 0", simulated),
    printed(`${name} of 125 Hz asked at 100 Hz, corrections per movement`, count(coarse), "truth 0", simulated),
    printed(
      `${name} of 125 Hz asked at 100 Hz, filtered at ${BELOW_BEAT} Hz, corrections per movement`,
      count(filtered),
      "truth 0",
      simulated,
    ),
    printed("economy/simulated strokes of 125 Hz, log dimensionless jerk, median", jerk(fine), "-5.32 for minimum jerk", simulated),
    printed(
      "economy/simulated strokes of 125 Hz asked at 100 Hz, log dimensionless jerk, median",
      jerk(coarse),
      "-5.32 for minimum jerk",
      simulated,
    ),
  ];
}
