import assert from "node:assert/strict";
import * as main from "aimed-movement";
import * as endpoints from "aimed-movement/endpoints";
import * as equipment from "aimed-movement/equipment";
import * as fitts from "aimed-movement/fitts";
import * as formula from "aimed-movement/formula";
import * as learning from "aimed-movement/learning";
import * as movement from "aimed-movement/movement";
import * as pacing from "aimed-movement/pacing";
import * as practice from "aimed-movement/practice";
import * as pursuit from "aimed-movement/pursuit";
import * as record from "aimed-movement/record";
import * as report from "aimed-movement/report";
import * as sequence from "aimed-movement/sequence";
import * as simulate from "aimed-movement/simulate";
import * as tally from "aimed-movement/tally";
import * as trace from "aimed-movement/trace";
import names from "./names.json" with { type: "json" };

// every entry gives the names it promises
const entries = {
  "": main,
  "/trace": trace,
  "/equipment": equipment,
  "/endpoints": endpoints,
  "/fitts": fitts,
  "/movement": movement,
  "/pursuit": pursuit,
  "/sequence": sequence,
  "/learning": learning,
  "/pacing": pacing,
  "/practice": practice,
  "/report": report,
  "/tally": tally,
  "/record": record,
  "/simulate": simulate,
  "/formula": formula,
};
assert.equal(Object.keys(entries).length, Object.keys(names).length);
for (const [path, entry] of Object.entries(entries)) assert.deepEqual(Object.keys(entry).sort(), names[`aimed-movement${path}`]);

// and they work together, by way of a file
const { recording } = simulate.simulateRecording({ seed: 3, movements: 12, sampleRateHz: 250 });
const session = { person: "someone", startedAt: "2026-01-02T10:00:00+01:00", equipment: { id: "desk" }, recordings: [recording] };
const read = trace.parseRecording(trace.formatRecording(session)).session;
const rows = movement.analyze(read.recordings[0]);
assert.deepEqual(rows, main.analyze(recording));
assert.equal(rows.length, 12);
for (const { times, budget } of rows) {
  const parts = budget.latency + budget.primary + budget.correction + budget.clutch + budget.verification + budget.recovery;
  assert.ok(Math.abs(parts - (times.end - times.go)) < 1e-9);
}
assert.equal(movement.summarize(rows).n, 12);

// plain numbers do, too
const { trials } = movement.pointingTrials(rows);
assert.equal(
  fitts.throughput(trials).cells.reduce((sum, cell) => sum + cell.n, 0),
  trials.along.length,
);
assert.equal(endpoints.endpointScatter({ x: trials.along, y: trials.along.map(() => 0) }).n, trials.along.length);
const { series } = simulate.simulateLearner({ seed: 2, sessions: 30 });
const law = formula.lawFromText("a + b * exp(-c * (N - 1))", { starts: { a: 0.5, b: 0.5, c: 0.1 } });
const [own, known] = [law, "exponential3"].map((choice) => learning.fitLearningCurve(series, { law: choice, intervals: "wald" }));
assert.ok(Math.abs(own.quality.residualSum / known.quality.residualSum - 1) < 1e-6);
assert.equal(learning.detectPlateau({ day: series.practice, value: series.value }).n, 30);
assert.deepEqual(sequence.shortestTour({ x: Float64Array.of(0, 9, 4), y: Float64Array.of(0, 0, 0) }).order, [0, 2, 1]);
