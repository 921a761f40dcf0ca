// Figures of merged tallies: each measure over people. Run: node examples/cluster/figures.mjs merged.jsonl
import { createReadStream } from "node:fs";
import { createInterface } from "node:readline";
import { mergeTallies, readTally } from "aimed-movement/tally";

// lines of one unit of length; those of another would not merge
const tallies = [];
for await (const line of createInterface({ input: createReadStream(process.argv[2]) })) tallies.push(JSON.parse(line));

const [group] = readTally(mergeTallies(tallies), { across: "person", by: [] }).groups;
console.log(`${group.units} people, ${tallies.length} sessions, ${group.n} acquisitions; mean over people with its 95 % interval`);
for (const [name, { acrossUnits }] of Object.entries(group.measures)) {
  const { mean } = acrossUnits;
  console.log(`  ${name.padEnd(18)} ${mean.ok ? `${mean.value.toFixed(3)} ${mean.unit} (${mean.interval.map((end) => end.toFixed(3)).join(" to ")})` : mean.why}`);
}
