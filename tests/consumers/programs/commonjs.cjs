const assert = require("node:assert/strict");
const names = require("./names.json");

for (const [path, wanted] of Object.entries(names)) assert.deepEqual(Object.keys(require(path)).sort(), wanted);

const { analyze, summarize } = require("aimed-movement");
const { simulateRecording } = require("aimed-movement/simulate");

const rows = analyze(simulateRecording({ seed: 3, movements: 12, sampleRateHz: 250 }).recording);
assert.equal(summarize(rows).n, 12);
