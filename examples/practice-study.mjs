// Is practice working? Three invented people of a simulated club, six weeks of daily sessions each: one who still gains, one who has stopped, one
// whose sessions scatter too much to tell. Run: npm run build && node examples/practice-study.mjs
import { compare, compareLearningCurves, detectPlateau, fitLearningCurve } from "aimed-movement";
import { simulateLearner } from "aimed-movement/simulate";

console.log("Simulated sessions of three invented people; nobody's real practice.\n");
const people = [
  { person: "Ines", seed: 21, curve: { a: 0.55, b: 0.4, c: 0.035 }, scatter: 0.015 },
  { person: "Tomas", seed: 22, curve: { a: 0.62, b: 0.25, c: 0.35 }, scatter: 0.01 },
  { person: "Mirela", seed: 23, curve: { a: 0.6, b: 0.2, c: 0.05 }, scatter: 0.05 },
];

for (const { person, seed, curve, scatter } of people) {
  const { series } = simulateLearner({ seed, sessions: 42, trialNoise: 0, curve, sessionNoise: { sd: scatter } });
  const day = series.practice.map((session) => session - 1);
  console.log(
    `${person}: ${series.value.length} sessions, ${series.value[0].toFixed(3)} s at first, ${series.value.at(-1).toFixed(3)} s at last`,
  );

  const fortnights = compare(series.value.slice(14, 28), series.value.slice(28), { unit: "s" });
  console.log(`  last two weeks against the two before: ${fortnights.verdict}, ${told(fortnights.change)}`);

  const plateau = detectPlateau({ day, value: series.value });
  const { trend, asymptote } = plateau.evidence;
  console.log(`  course: ${plateau.verdict}${plateau.why ? ` (${plateau.why})` : ""}, gain in two weeks ${told(trend.improvement)}`);
  if (plateau.sessionsNeeded !== null) console.log(`  a plateau would be told after some ${plateau.sessionsNeeded} sessions more`);
  if (asymptote.remaining.ok)
    console.log(`  of the gain ${Math.round(100 * asymptote.remaining.value)} % is still to come, if it follows an exponential curve`);

  const { chosen, warnings } = compareLearningCurves(series, { errors: "lognormal" });
  const undecided = warnings.includes("notDistinguished") ? ", but others fit as well" : "";
  console.log(`  law of practice: ${chosen}${undecided}`);

  const month = fitLearningCurve(series, { errors: "lognormal", predict: [series.practice.at(-1) + 28] });
  console.log(`  asymptote ${told(month.parameters.a)}; a session in four weeks ${told(month.predictions[0])}\n`);
}
console.log(
  "None of this says how much anybody should practise. Stop at pain, numbness or tingling; take breaks; ask a clinician if it stays.",
);

function told(estimate) {
  if (!estimate.ok) return `cannot be given (${estimate.why})`;
  const digits = estimate.unit === "%" ? 1 : 3;
  const [low, high] = estimate.interval ?? [];
  const range = low === undefined ? "" : ` (${low.toFixed(digits)} to ${high.toFixed(digits)})`;
  return `${estimate.value.toFixed(digits)} ${estimate.unit}${range}`;
}
