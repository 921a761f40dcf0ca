import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentTail } from "../../math/student-tail.js";
import type { ScoreTable, VarianceTable } from "./score-table.js";

/** What speaks against taking figures of reliability at their word. */
export type ReliabilityWarning =
  /** From two to nine people: intraclass correlations may be anything. */
  | "fewPeople"
  /** The sessions differ for all (F test at 1 - level): practice, or another task. Forms 1 and 2 and the error within people hold it. */
  | "learningBetweenSessions"
  /** Who scores higher also scatters more (p below 0.05, one-sided): take the percent figures, and logarithms for the rest. */
  | "proportionalError"
  /** Whenever there are several people: the error and the minimal detectable change are the group's, too small for some and too large for others. See `own`. */
  | "groupNotPerson";

const ENOUGH_PEOPLE = 10;
const ALPHA = 0.05;

export function reliabilityWarnings(table: ScoreTable, variances: VarianceTable | null, level: number): ReliabilityWarning[] {
  const warnings: ReliabilityWarning[] = [];
  if (table.people > 1 && table.people < ENOUGH_PEOPLE) warnings.push("fewPeople");
  if (variances?.sessionTest && variances.sessionTest.p < 1 - level) warnings.push("learningBetweenSessions");
  if (variances !== null && proportional(table)) warnings.push("proportionalError");
  if (table.people > 1) warnings.push("groupNotPerson");
  return warnings;
}

/** Whether the size of the errors rises with the person's mean: Pearson's correlation of the two, tested by Student's t. */
function proportional({ people, sessions, rowMeans, residuals }: ScoreTable): boolean {
  if (people < 4) return false;
  const sizes = rowMeans.map((_, i) => {
    let sum = 0;
    for (let j = 0; j < sessions; j++) sum += residuals[i * sessions + j]! ** 2;
    return Math.sqrt(sum);
  });
  const [x, y] = [meanAndSd(rowMeans), meanAndSd(sizes)];
  if (x.sd === 0 || y.sd === 0) return false;
  let sum = 0;
  for (let i = 0; i < people; i++) sum += ((rowMeans[i]! - x.mean) / x.sd) * ((sizes[i]! - y.mean) / y.sd);
  const correlation = Math.min(1, sum / (people - 1));
  if (!(correlation > 0)) return false;
  const t = correlation * Math.sqrt((people - 2) / (1 - correlation * correlation));
  return studentTail(t, people - 2) / 2 < ALPHA;
}
