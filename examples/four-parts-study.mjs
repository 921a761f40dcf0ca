// Which part of the movement loses time or accuracy? One invented person of a simulated club, before and after a month: single targets, targets in
// sequence, a moving target. Run: npm run build && node examples/four-parts-study.mjs
import { analyze, analyzePursuit, analyzeSequence, stopProfile, summarize, trialToTrialLearning } from "aimed-movement";
import { simulatePursuit, simulateRecording } from "aimed-movement/simulate";

console.log("Simulated recordings of an invented person; nobody's real practice.\n");
const targets = { amplitude: [400, 400], widths: [40] };
const months = [
  {
    name: "May",
    seed: 61,
    primary: { alongSd: 0.06 },
    press: { delay: 0.1, delaySd: 0.05 },
    latency: { mu: 0.24 },
    follower: { delay: 0.18 },
  },
  {
    name: "June",
    seed: 62,
    primary: { alongSd: 0.06 },
    press: { delay: 0.1, delaySd: 0.025 },
    latency: { mu: 0.21 },
    follower: { delay: 0.18 },
  },
];

let law;
for (const { name, seed, primary, press, latency, follower } of months) {
  const correction = { onset: [0.05, 0.2] };
  const single = simulateRecording({ seed, movements: 300, targets, primary, press, correction, latency }).recording;
  const rows = analyze(single);
  const { primaryError, corrections, stopping, economy } = summarize(rows, law && { correctionTimeLaw: law });
  console.log(`${name}: ${rows.length} single targets of 40 px at 400 px`);
  console.log(`  primary      lands ${told(primaryError.along.constant)} along, spread ${told(primaryError.along.variable)}`);
  const learning = trialToTrialLearning(rows.map((row) => row.errors.primary?.along ?? null));
  console.log(`               last miss: ${learning.ok ? learning.verdict : learning.why}`);
  console.log(
    `  corrections  per target ${told(corrections.perAcquisition)}, begin after ${told(corrections.latency)}, gain ${told(corrections.gain.unbiased)}`,
  );
  if (corrections.time.excess) console.log(`               time beyond what the errors explained in May ${told(corrections.time.excess)}`);
  console.log(
    `  stop, press  press after stop ${told(stopping.afterStop.median)}, SD ${told(stopping.afterStop.sd)}, slip ${told(stopping.slip.rms)}`,
  );
  console.log(`               the last 0.2 s differ by ${told(stopProfile(single, rows).atStop.functionalSd)} of the peak speed`);
  console.log(`  economy      path efficiency ${told(economy.efficiency)}, beyond need ${told(economy.excess.total)}`);
  const { intercept, slope } = corrections.time;
  if (law === undefined && intercept.ok && slope.ok) law = { intercept: intercept.value, slope: slope.value };

  const planning = { shortest: 0.8, random: 0.2 };
  const sequences = simulateRecording({
    seed: seed + 10,
    movements: 200,
    sequence: 4,
    planning,
    primary,
    press,
    correction,
    latency,
  }).recording;
  const { downtime, order, hesitations } = analyzeSequence(sequences, analyze(sequences));
  console.log(
    `  next target  downtime ${told(downtime.median)}, hesitations ${told(hesitations.either)}, path ${told(order.excess)} longer than the shortest`,
  );

  const [pursuit] = analyzePursuit(simulatePursuit({ seed: seed + 20, trials: 1, duration: 60, follower }).recording);
  console.log(`  following    on target ${told(pursuit.onTarget.share)} of the time, late by ${told(pursuit.lag.byCorrelation)}\n`);
}
console.log(
  "Two months are two sessions here: whether a change is real takes several sessions on either side (see examples/practice-study.mjs).",
);
console.log(
  "None of this says how much anybody should practise. Stop at pain, numbness or tingling; take breaks; ask a clinician if it stays.",
);

function told(estimate) {
  if (!estimate.ok) return `cannot be given (${estimate.why})`;
  const unit = estimate.unit === "1" ? "" : ` ${estimate.unit}`;
  const text = (value) => value.toPrecision(3);
  const [low, high] = estimate.interval ?? [];
  return `${text(estimate.value)}${unit}${low === undefined ? "" : ` (${text(low)} to ${text(high)})`}`;
}
