// The main job in one go: recordings in; a table of acquisitions, where time and accuracy go, and how it was done, out.
// Run: npm run demo            the simulated evening of an invented club in examples/data
//      npm run demo -- FILE…   any recordings in the library's own form: JSON Lines, a table of samples, or a folder of CSV tables
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { analyze, assessSampling, parseRecording, segmentMovements, summarize, toTable } from "aimed-movement";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const given = process.argv.slice(2);
const files = given.length > 0 ? given : readdirSync(here("data")).map((name) => here(`data/${name}`));
if (given.length === 0) console.log("Simulated recordings of an invented club; nobody's real movements.\n");

const results = [];
for (const file of files) {
  try {
    results.push(show(file));
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
mkdirSync(here("output"), { recursive: true });
writeFileSync(here("output/demo.json"), JSON.stringify(results, null, 2));
console.log(`The same as JSON: ${here("output/demo.json")}`);

/** Prints one file and returns what was printed as data. */
function show(file) {
  const { session, report } = parseRecording(read(file), { file: basename(file) });
  const unit = session.recordings[0]?.space.unit ?? "px";
  console.log(`${basename(file)}: ${session.person}, ${session.startedAt}, ${session.equipment.id}`);
  if (report.incomplete) console.log("  the last line was cut short and left out");
  const sampling = session.recordings.map((recording) => assessSampling(recording.trace));
  for (const one of sampling)
    console.log(
      `  samples ${one.n}, rate in motion ${say(one.rate, 0)}, warnings: ${one.warnings.map((w) => w.code).join(", ") || "none"}`,
    );
  const rows = session.recordings.flatMap((recording) => analyze(recording));
  const table = toTable(rows);
  const summary = summarize(rows, { unit });
  const found = { file: basename(file), person: session.person, report, sampling, table, summary };
  if (rows.length === 0) {
    const movements = session.recordings.map((recording) => segmentMovements(recording.trace, { space: recording.space }));
    console.log("  no acquisitions: the recording names no trials with targets; movements by speed alone:");
    for (const { status, movements: some } of movements)
      console.log(status === "ok" ? `    ${some.length} movements` : `    none (${status})`);
    console.log();
    return { ...found, movements };
  }
  printRows(table);
  printSummary(summary, unit);
  return found;
}

/** The text of a file, or the CSV tables of a folder by their names. */
function read(path) {
  if (!statSync(path).isDirectory()) return readFileSync(path, "utf8");
  const tables = readdirSync(path).filter((name) => name.endsWith(".csv"));
  return Object.fromEntries(tables.map((name) => [basename(name, ".csv"), readFileSync(join(path, name), "utf8")]));
}

function printRows(table) {
  console.log(
    `\n  ${"trial".padEnd(10)}${"outcome".padEnd(11)}${["latency", "primary", "correct.", "verify", "recover"].map((h) => h.padStart(9)).join("")}  ms   corr.  primary along/across   press off   flags`,
  );
  for (const row of table.slice(0, 12)) {
    const times = [row.latency, row.primary, row.correction, row.verification, row.recovery]
      .map((s) => (1000 * s).toFixed(0).padStart(9))
      .join("");
    const primary = row.primaryAlong === null ? "-" : `${row.primaryAlong.toFixed(0)} / ${row.primaryAcross.toFixed(0)}`;
    console.log(
      `  ${row.trial.padEnd(10)}${row.outcome.padEnd(11)}${times}      ${String(row.corrections).padStart(5)}${primary.padStart(22)}${(row.pressRadial?.toFixed(1) ?? "-").padStart(12)}   ${row.flags}`,
    );
  }
  if (table.length > 12) console.log(`  … and ${table.length - 12} more, all in the JSON`);
}

function printSummary(summary, unit) {
  const { time, primaryError, pressError, corrections, outcomes } = summary;
  console.log(
    `\n  ${summary.n} acquisitions in ${time.wall.toFixed(1)} s: ${Object.entries(outcomes)
      .filter(([, n]) => n > 0)
      .map(([name, n]) => `${n} ${name}`)
      .join(", ")}`,
  );
  console.log("  where the time went           share    mean per acquisition (95 % interval)");
  for (const [part, { share, mean }] of Object.entries(time.parts))
    console.log(`    ${part.padEnd(24)}${(100 * share).toFixed(1).padStart(8)} %  ${say(mean, 0, 1000, "ms")}`);
  if (time.waiting !== null && time.wall > 0)
    console.log(`    ${"waiting between".padEnd(24)}${((100 * time.waiting) / time.wall).toFixed(1).padStart(8)} %`);
  console.log(`  where the accuracy went, ${unit}`);
  for (const [name, error] of [
    ["primary endpoint", primaryError],
    ["press", pressError],
  ]) {
    console.log(
      `    ${name.padEnd(18)} along: bias ${say(error.along.constant, 1)}, spread ${say(error.along.variable, 1)}; across: bias ${say(error.across.constant, 1)}, spread ${say(error.across.variable, 1)}; on target ${say(error.onTarget, 0, 100, "%")}`,
    );
  }
  console.log("  how it was done");
  const { gain, latency } = corrections;
  console.log(
    `    corrections        per movement ${say(corrections.perAcquisition, 2)}; begin ${say(latency, 0, 1000, "ms")} after the primary; gain ${say(gain.unbiased, 2)}`,
  );
  const { afterStop, early, pressDuration, slip } = summary.stopping;
  console.log(
    `    stop and press     press ${say(afterStop.median, 0, 1000, "ms")} after the stop, spread ${say(afterStop.sd, 0, 1000, "ms")}, ${say(early, 0, 100, "%")} before it; held ${say(pressDuration.median, 0, 1000, "ms")}; slip ${say(slip.rms, 1)}`,
  );
  const { efficiency, excess } = summary.economy;
  console.log(
    `    path               ${say(efficiency, 1, 100, "%")} of it needed; beyond need ${say(excess.primary, 1)} in the primary, ${say(excess.correction, 1)} in corrections`,
  );
  console.log(`    hits at the first press ${say(summary.hitAtFirstPress, 0, 100, "%")}\n`);
}

/** An estimate in words: value with interval, or why there is none. */
function say(estimate, digits, factor = 1, unit = "") {
  if (!estimate.ok) return `not known (${estimate.why}, n = ${estimate.n})`;
  const number = (v) => (factor * v).toFixed(digits);
  const interval = estimate.interval ? ` (${number(estimate.interval[0])} to ${number(estimate.interval[1])})` : "";
  return `${number(estimate.value)}${unit && ` ${unit}`}${interval}`;
}
