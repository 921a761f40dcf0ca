import type { PlanChoice } from "../types.js";
import * as limits from "./limits.js";

const TRADE = "common practice, no source";

/** Every number of the plan that was chosen and not measured. */
export function planChoices(wanted: number, shift: number, days: number, everyDays: number): PlanChoice[] {
  const choice = (name: string, value: number, unit: string, why: string): PlanChoice => ({ name, value, unit, why });
  return [
    choice("minutes of each part in an hour", limits.PART_MINUTES, "min", TRADE),
    choice("minutes of combined practice in an hour", limits.COMBINED_MINUTES, "min", TRADE),
    choice("shortest stretch", limits.SHORTEST_MINUTES, "min", "less is hardly begun"),
    choice(
      "share of each other part's minutes that goes to the weakest",
      shift,
      "1",
      "half at most, since a diagnosis can err; a quarter kept nearly all of the gain of simulated trainees and halved the loss of wrong diagnoses",
    ),
    choice("probability from which a part is named", 0.8, "1", "a named part may be the wrong one in up to one case of five"),
    choice("longest day without a warning", limits.LONG_DAY_MINUTES, "min", "caution, not a limit known to be safe"),
    choice("practice between two breaks", limits.BETWEEN_BREAKS_MINUTES, "min", "a break within each hour, the short rests counted"),
    choice("break", limits.BREAK_MINUTES, "min", "5 to 10 minutes an hour are advised for work at a screen"),
    choice("acquisitions in a set", limits.SET_ACQUISITIONS, "acquisition", `20 to 40: ${TRADE}`),
    choice("rest after a set", limits.SET_REST_SECONDS, "s", `30 to 60 s: ${TRADE}`),
    choice("days of practice a week", days, "day", "a day without practice now and then"),
    choice("length of the test", limits.TEST_MINUTES, "min", "short enough not to be practice"),
    choice("days between tests", everyDays, "day", "often enough to see a month, seldom enough not to train the test"),
    choice("hit share from which parts are mixed", limits.MIXED_HIT_SHARE, "1", "below, the task is not yet known"),
    choice("sessions from which parts are mixed", limits.MIXED_SESSIONS, "session", "before, the task is new"),
    choice("wanted hit share", wanted, "1", "slow until clean: common practice, no source"),
    choice(
      "hits missing from the wanted share until a block is poor",
      100 * limits.HIT_SHARE_MARGIN,
      "%",
      "at the wanted share of 95 % chance alone takes 1.6 % of sets of 30 below",
    ),
    choice(
      "growth of latency a block until it counts as tiredness",
      100 * limits.LATENCY_GROWTH,
      "%",
      "about twice the scatter of the mean latency of 30 acquisitions",
    ),
    choice("days away that count as a lay-off", limits.LAY_OFF_DAYS, "day", TRADE),
    choice("share of the dose after a lay-off", limits.LAY_OFF_SHARE, "1", TRADE),
    choice("smallest change of interest", 2, "%", "small enough to matter to nobody"),
    choice("sessions after a change before it is judged", limits.SESSIONS_TO_JUDGE, "session", "fewer seldom tell anything"),
  ];
}
