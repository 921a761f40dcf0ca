// Figures of merged tallies: each measure over people. Run: node examples/cluster/figures.mjs study.jsonl
import { readFileSync } from "node:fs";
import { mergeTallies, readTally } from "aimed-movement/tally";

// lines of one unit of length; those of another do not merge
const lines = readFileSync(process.argv[2], "utf8").trimEnd().split("\n");
const whole = mergeTallies(lines.map((line) => JSON.parse(line)));
const [group] = readTally(whole, { across: "person", by: [] }).groups;
console.log(`${group.units} people, ${lines.length} sessions, ${group.n} acquisitions; mean over people with its 95 % interval`);
for (const [name, { acrossUnits }] of Object.entries(group.measures)) console.log(`  ${name.padEnd(18)} ${told(acrossUnits.mean)}`);

function told({ ok, value, unit, interval, why }) {
  return ok ? `${value.toFixed(3)} ${unit} (${interval.map((end) => end.toFixed(3)).join(" to ")})` : `not given (${why})`;
}
