import { simulatePursuit, simulateRecording } from "aimed-movement/simulate";
import { habitsAt } from "./levels.mjs";
import { after, named, rounded } from "./recordings.mjs";

/** Factors on the time of the first stroke. */
const PACES = { slow: 1.35, usual: 1, fast: 0.75 };
const FIELD = { bounds: { width: 1600, height: 900 }, amplitude: [200, 500], widths: [24, 40, 64] };
/** Seconds between two parts of the evening. */
const BREAK = 20;

/** One evening of one person: single targets at three paces, sequences, one moving target, in an order of its own. */
export function evening({ seed, levels, equipment, usual }) {
  // the record's latency is end to end: on average half a frame of it is the wait for the next one, which the simulation adds by itself
  const latency = equipment.latency - 0.5 / equipment.refreshHz;
  const display = { refreshHz: equipment.refreshHz, latency };
  const common = { sampleRateHz: equipment.reportHz, display };
  const single = (pace, movements, i) => {
    const { recording } = simulateRecording({ ...common, seed: seed + i, movements, targets: FIELD, ...habitsAt(levels, PACES[pace]) });
    return named(recording, pace, { pace });
  };
  const sequence = () => {
    const planning = { nearest: 0.6, shortest: 0.2, overlapShare: 0.05, hesitationShare: 0.1 };
    const habits = habitsAt(levels, PACES.usual);
    const { recording } = simulateRecording({ ...common, seed: seed + 4, movements: 8, sequence: 4, planning, targets: FIELD, ...habits });
    return named(recording, "sequence", { pace: "usual" });
  };
  const pursuit = () => {
    const { recording } = simulatePursuit({
      seed: seed + 5,
      duration: 20,
      sampleRateHz: equipment.reportHz,
      display: { frameHz: equipment.refreshHz, latency },
      follower: { delay: 0.15 * levels.correction },
      target: { speed: [200, 200], path: "randomWalk" },
    });
    return named(recording, "pursuit", {});
  };
  const parts = [() => single("slow", 10, 1), () => single("usual", usual, 2), () => single("fast", 10, 3), sequence, pursuit];
  let end = 0;
  return shuffled(parts, seed).map((make) => {
    const recording = rounded(after(make(), end === 0 ? 0 : end + BREAK));
    end = recording.trials.at(-1).tEnd;
    return recording;
  });
}

/** The items in an order that belongs to `seed`; multiplier and increment of a common linear congruential generator (recalled). */
function shuffled(items, seed) {
  const order = [...items];
  let state = seed >>> 0;
  for (let i = order.length - 1; i > 0; i--) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const j = Math.floor((state / 2 ** 32) * (i + 1));
    [order[i], order[j]] = [order[j], order[i]];
  }
  return order;
}
