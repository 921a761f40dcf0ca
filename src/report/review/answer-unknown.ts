import { sayList } from "../../practice/say.js";
import type { PracticeReview } from "../types.js";
import { SESSIONS_TO_COMPARE } from "./answer-change.js";
import { sayDoubt } from "./answer-cost.js";

/** What the recordings cannot answer, each with why. */
export function answerUnknown(
  comparison: PracticeReview["comparison"],
  courses: PracticeReview["courses"],
  diagnosis: PracticeReview["diagnosis"],
  pace: PracticeReview["pace"],
  equipmentUnknown: boolean,
): string[] {
  const untold = comparison?.measures.filter(({ skill }) => skill === "cannotTell").map(({ label }) => label) ?? [];
  const why = comparison?.warnings.includes("equipment") ? "the equipment differs" : "the sessions scatter too much or are too few";
  const plateau = courses.find(({ measure }) => measure === "acquisitionTime")?.plateau;
  return [
    ...(comparison === undefined ? [`whether anything changed (at least ${SESSIONS_TO_COMPARE} sessions are needed)`] : []),
    ...(untold.length > 0 ? [`whether ${measuresWords(untold, comparison!.measures.length)} changed (${why})`] : []),
    ...(plateau === undefined || plateau.verdict === "cannotTell" ? ["whether practice has reached a plateau"] : []),
    ...(diagnosis.verdict.kind === "cannotTell" ? [`which part costs most (${sayDoubt(diagnosis.verdict.why)})`] : []),
    ...(equipmentUnknown ? ["whether the display's delay is the limit (it was not recorded)"] : []),
    ...(pace.recommended?.verdict === "clear" ? [] : ["the best pace (it takes blocks at three or more deliberate paces)"]),
    "anything about grip, posture or pain (pointer recordings do not show them)",
  ];
}

/** A few measures by name, many by number. */
function measuresWords(names: readonly string[], of: number): string {
  return names.length <= 3 ? `the ${sayList(names)}` : `${names.length} of ${of} measures`;
}
