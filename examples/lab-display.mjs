// A display in a laboratory: many people point at once, one worker analyses them all, and rows appear as they become final. The people are simulated.
// Run: npm run build && node examples/lab-display.mjs [PEOPLE] [MS]     (default: 12 people; a worker whom every message costs MS more, default 0)
import { simulateRecording } from "aimed-movement/simulate";
import { play } from "./lab-display/play.mjs";

const [people = 12, slowness = 0] = process.argv.slice(2).map(Number);
if (!(Number.isInteger(people) && people >= 1)) throw new RangeError(`PEOPLE must be a whole number of at least 1, got ${process.argv[2]}`);
if (!(slowness >= 0)) throw new RangeError(`MS must be a number of at least 0, got ${process.argv[3]}`);

const recordings = Array.from(
  { length: people },
  (_, k) => simulateRecording({ seed: 100 + k, movements: 8, sampleRateHz: 1000, recorder: { eventsOnly: false } }).recording,
);
console.log(`${people} simulated people at 1000 samples a second; nobody's real movements.`);
const { people: told, late } = await play(recordings, { slowness, onRows: show });
const sum = (of) => told.reduce((total, one) => total + of(one), 0);
console.log(
  `${sum(({ rows }) => rows.length)} rows from ${sum(({ samples }) => samples)} samples: ${sum(({ chunks }) => chunks)} chunks in ${sum(({ messages }) => messages)} messages, ` +
    `never more than ${Math.max(...told.map(({ mostUnanswered }) => mostUnanswered))} unanswered a person, at most ${Math.max(...told.map(({ mostWaiting }) => mostWaiting))} chunks waiting.`,
);
console.log(
  `Answers came ${late.median.toFixed(1)} ms after the oldest sample of their message was there, ${late.most.toFixed(0)} ms at most.`,
);

function show(person, rows) {
  for (const { target, outcome, times } of rows)
    console.log(
      `  ${times.end.toFixed(2).padStart(6)} s  person ${person + 1}  ${target}  ${outcome} after ${(times.end - times.go).toFixed(2)} s`,
    );
}
