import { sayCount } from "../say.js";
import { LAY_OFF_DAYS, LONG_DAY_MINUTES } from "./limits.js";

/** What stands under every plan, whatever was asked. */
const ALWAYS: readonly string[] = [
  "Stop at pain, numbness, tingling or weakness in fingers, hand, arm, shoulder or neck. Do not practise through them.",
  "Symptoms that persist or come back: see a clinician, and take their word over this plan.",
  "Take the short breaks before they are needed, let the hand rest off the device, look away, and vary posture.",
  "After a lay-off, an illness or an injury begin with less than before.",
  "This is no medical advice. A pointer recording shows neither grip force nor posture nor strain, and no weekly amount is claimed to be safe.",
];

/** Cautions of a plan: what this one calls for first, then what holds for all. */
export function planCautions(day: {
  readonly minutes: number;
  readonly asked: number;
  readonly daysAway: number;
  readonly declining: boolean;
}): string[] {
  const { minutes, asked, daysAway, declining } = day;
  return [
    ...(minutes > LONG_DAY_MINUTES
      ? [
          `${minutes} minutes a day are more than ${LONG_DAY_MINUTES}: the day is divided into two sittings. More minutes are no promise of more gain, and strain adds up; watch for early signs.`,
        ]
      : []),
    ...(daysAway >= LAY_OFF_DAYS
      ? [
          `After ${sayCount(daysAway, "day")} without practice this plan has ${minutes} of the ${asked} minutes asked for. Raise them over a week or two, and only without symptoms.`,
        ]
      : []),
    ...(declining
      ? ["The measure is getting worse: look for too little rest, another pace or other equipment before you practise more."]
      : []),
    ...ALWAYS,
  ];
}
