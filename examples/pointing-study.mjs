// A pointing study in one go: two invented people, nine conditions each, simulated; cells, throughput and what to beware of, the law of movement
// time, and where the endpoints landed. Run: npm run build && node examples/pointing-study.mjs
import { analyze, compareMovementTimeModels, endpointScatter, hitProbability, pointingTrials, reviewThroughput } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

console.log("Simulated recordings of two invented people; nobody's real movements.\n");
const people = [
  { person: "Ines", primary: {}, press: {} },
  { person: "Tomas", primary: { alongSd: 0.09, timeSlope: 0.035 }, press: { delay: 0.05 } },
];
const conditions = [200, 400, 800].flatMap((amplitude) => [16, 32, 64].map((width) => ({ amplitude, width })));

const sets = people.flatMap(({ person, primary, press }, one) =>
  conditions.map((condition, at) => {
    const { amplitude, width } = condition;
    const targets = { amplitude: [amplitude, amplitude], widths: [width] };
    const { recording } = simulateRecording({ seed: 100 * one + at + 1, movements: 25, sampleRateHz: 250, targets, primary, press });
    const rows = analyze(recording);
    return { person, condition, rows, trials: pointingTrials(rows, { person, condition: () => condition }).trials };
  }),
);

const { result, warnings, hitShare, tradeOff } = reviewThroughput(join(sets.map((set) => set.trials)));
console.log("person  A, px  W, px   n  MT, s  hits  bias  We, px  IDe, bit  TP, bit/s");
for (const cell of result.cells) {
  const { person, amplitude, width, n, movementTime, bias, effectiveWidth, effectiveDifficulty, throughput } = cell;
  const columns = [
    [amplitude, 6],
    [width, 6],
    [n, 3],
    [movementTime.toFixed(3), 6],
    [`${Math.round(100 * cell.hitShare)} %`, 5],
    [bias.toFixed(1), 5],
  ];
  const derived = [
    [effectiveWidth?.toFixed(1), 7],
    [effectiveDifficulty?.toFixed(2), 9],
    [throughput?.toFixed(2), 10],
  ];
  console.log(person.padEnd(6), ...[...columns, ...derived].map(([value, size]) => String(value ?? "-").padStart(size)));
}
for (const { person, throughput } of result.people) console.log(`${person}: ${throughput?.toFixed(2) ?? "-"} bit/s`);
console.log(`both: ${say(result.throughput)}; hits ${say(hitShare)}; beware of: ${warnings.join(", ") || "nothing noticed"}`);
if (tradeOff) console.log(`with endpoints spread 1.5 times as wide the line says ${(100 * (tradeOff.wider - 1)).toFixed(1)} %\n`);

for (const { person } of people) {
  const cells = result.cells.filter((cell) => cell.person === person);
  const { models, warnings: doubts } = compareMovementTimeModels(cells);
  const [best] = models;
  console.log(
    `${person}: least error for a condition left out: ${best.fit.model}${best.fit.form ? ` (${best.fit.form})` : ""}; ${doubts.join(", ")}`,
  );
  const narrow = sets.find((set) => set.person === person && set.condition.amplitude === 400 && set.condition.width === 16);
  const offsets = endpointsOf(narrow.rows);
  const scatter = endpointScatter(offsets);
  const { model, observed, gain } = hitProbability(offsets, { kind: "circle", diameter: 16 });
  if (scatter.ok) console.log(`  400 px to a target of 16 px: SD along ${say(scatter.sd.x)}, bias along ${say(scatter.x.constant)}`);
  console.log(
    `  hits ${say(observed)} counted, ${say(model)} by the normal model; without bias ${say(gain.withoutBias)} more, a fifth less spread ${say(gain.withLessSpread)} more`,
  );
}

/** A number with its interval, or why there is none. */
function say(estimate) {
  if (!estimate.ok) return estimate.why;
  const text = (value) => (Math.abs(value) < 10 ? value.toFixed(2) : value.toFixed(1));
  const interval = estimate.interval ? ` [${estimate.interval.map(text).join(", ")}]` : "";
  return `${text(estimate.value)}${interval} ${estimate.unit === "1" ? "" : estimate.unit}`.trim();
}

/** First presses about the target, along and across. */
function endpointsOf(rows) {
  const errors = rows.flatMap((row) => (row.errors.press?.along === undefined ? [] : [row.errors.press]));
  return { x: Float64Array.from(errors, (error) => error.along), y: Float64Array.from(errors, (error) => error.across) };
}

/** Several trial sets as one: columns end to end. */
function join(all) {
  const column = (name) => Float64Array.from(all.flatMap((set) => [...set[name]]));
  const columns = ["amplitude", "width", "movementTime", "along", "travelled", "hit"].map((name) => [name, column(name)]);
  return { ...Object.fromEntries(columns), person: all.flatMap((set) => set.person) };
}
