// Analyses chunks as they come, on whatever thread this runs: a recorder's page posts them, their columns transferred.
import { analyze, createAnalyzer } from "aimed-movement/movement";
import { simulateRecording } from "aimed-movement/simulate";

const { recording } = simulateRecording({ seed: 3, movements: 12, sampleRateHz: 250 });
const PER_CHUNK = 100;

/** Answers messages: first the space, then chunks, then "flush"; each with the rows that became final. */
export function createAnswerer() {
  let analyzer;
  return (message) => {
    if (message === "flush") return analyzer.flush();
    if ("kind" in message) analyzer = createAnalyzer(message);
    return "kind" in message ? [] : analyzer.push(message);
  };
}

/** What `post(message, transferred)` answers over a whole recording must be what `analyze` says of it; returns the number of rows. */
export async function askLive(post) {
  const rows = await post(recording.space, []);
  for (const chunk of chunksOf(recording)) {
    const { t, x, y } = chunk.trace;
    rows.push(...(await post(chunk, [t.buffer, x.buffer, y.buffer])));
    if (t.length + x.length + y.length > 0) throw new Error("a column was copied, not transferred");
  }
  rows.push(...(await post("flush", [])));
  const whole = analyze(recording);
  if (JSON.stringify(rows) !== JSON.stringify(whole))
    throw new Error(`${rows.length} live rows are not the ${whole.length} of the recording`);
  return rows.length;
}

/** Targets and trials are known from the start; samples and presses come in turn. */
function* chunksOf({ trace, presses, targets, trials }) {
  for (let from = 0; from < trace.t.length; from += PER_CHUNK) {
    const to = from + PER_CHUNK;
    const after = trace.t[from - 1] ?? Number.NEGATIVE_INFINITY;
    const until = to < trace.t.length ? trace.t[to - 1] : trials.at(-1).tEnd;
    yield {
      trace: { t: trace.t.slice(from, to), x: trace.x.slice(from, to), y: trace.y.slice(from, to) },
      presses: presses.filter(({ t }) => t > after && t <= until),
      ...(from === 0 ? { targets, trials } : {}),
      until,
    };
  }
}
