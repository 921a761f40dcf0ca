// One real call of every entry, with what it says as plain data: each runtime runs this on the entries it loaded, and all must say the same.

/** The names that each entry gives, and what a call of each answers. `element`: where to record; a stand-in where there is no page. */
export function resultsOf(entries, element = standIn()) {
  const names = Object.fromEntries(Object.entries(entries).map(([path, entry]) => [path, Object.keys(entry).sort()]));
  const answers = Object.fromEntries(Object.entries(calls).map(([path, call]) => [path, call(entries[path], entries, element)]));
  return { names, answers };
}

const simulated = (entries) =>
  entries["aimed-movement/simulate"].simulateRecording({ seed: 3, movements: 12, sampleRateHz: 250 }).recording;
const sessionOf = (recording) => ({
  person: "someone",
  startedAt: "2026-01-02T10:00:00+01:00",
  equipment: { id: "desk" },
  recordings: [recording],
});

const calls = {
  "aimed-movement": ({ analyze, summarize }, entries) => summarize(analyze(simulated(entries))),
  "aimed-movement/trace": ({ parseRecording, formatRecording }, entries) => {
    const { session } = parseRecording(formatRecording(sessionOf(simulated(entries))));
    return [session.person, Array.from(session.recordings[0].trace.x)];
  },
  "aimed-movement/equipment": ({ displayTiming }) => displayTiming(Float64Array.from({ length: 600 }, (_, i) => i / 144)),
  "aimed-movement/endpoints": ({ endpointScatter }) =>
    endpointScatter({ x: Float64Array.of(1, 4, 2, 5, 3, 3), y: Float64Array.of(2, 1, 3, 5, 4, 2) }),
  "aimed-movement/fitts": ({ throughput }, entries) => {
    const { analyze, pointingTrials } = entries["aimed-movement/movement"];
    return throughput(pointingTrials(analyze(simulated(entries))).trials);
  },
  "aimed-movement/movement": ({ analyze }, entries) => analyze(simulated(entries)),
  "aimed-movement/pursuit": ({ analyzePursuit }, entries) =>
    analyzePursuit(entries["aimed-movement/simulate"].simulatePursuit({ seed: 1 }).recording),
  "aimed-movement/sequence": ({ shortestTour }) => shortestTour({ x: Float64Array.of(0, 9, 4), y: Float64Array.of(0, 0, 0) }),
  "aimed-movement/learning": ({ detectPlateau }, entries) => {
    const { series } = entries["aimed-movement/simulate"].simulateLearner({ seed: 2, sessions: 30 });
    return detectPlateau({ day: series.practice, value: series.value });
  },
  "aimed-movement/pacing": ({ createStaircase, stepStaircase }) =>
    [true, false, true].reduce(stepStaircase, createStaircase({ start: 80 })),
  "aimed-movement/practice": ({ planPractice }) => planPractice({ minutes: 60 }),
  "aimed-movement/report": ({ methods, summarizeSession }, entries) => {
    const summary = summarizeSession(sessionOf(simulated(entries)));
    return [summary, methods(summary)];
  },
  "aimed-movement/tally": ({ tally, mergeTallies, readTally }, entries) => {
    const rows = entries["aimed-movement/movement"].analyze(simulated(entries));
    return readTally(mergeTallies([tally(rows.slice(0, 5)), tally(rows.slice(5))]), { across: "row" });
  },
  "aimed-movement/record": ({ createRecorder }, _, element) => {
    const recorder = createRecorder(element);
    return [recorder.space, recorder.stop().trace.t.length];
  },
  "aimed-movement/simulate": ({ simulateTrainee }) => simulateTrainee({ seed: 5 }).recordings?.length ?? 0,
  "aimed-movement/formula": ({ lawFromText }, entries) => {
    const law = lawFromText("a + b * exp(-c * (N - 1))", { starts: { a: 0.5, b: 0.5, c: 0.1 } });
    const { series } = entries["aimed-movement/simulate"].simulateLearner({ seed: 2, sessions: 30 });
    return entries["aimed-movement/learning"].fitLearningCurve(series, { law, intervals: "wald" }).parameters;
  },
};

/** The parts of a page's element that a recorder touches. */
function standIn() {
  const view = Object.assign(new EventTarget(), { performance, requestAnimationFrame: () => 1, cancelAnimationFrame: () => {} });
  const ownerDocument = Object.assign(new EventTarget(), { defaultView: view, visibilityState: "visible" });
  return Object.assign(new EventTarget(), { ownerDocument, getBoundingClientRect: () => ({ left: 0, top: 0 }) });
}
