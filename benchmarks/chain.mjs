// Our side of benchmarks/chain.ts: a process of its own on the built library, no loader in between. Requests and answers as in chain.py.
import { createInterface } from "node:readline";
import { segmentMovements } from "aimed-movement/movement";
import { kinematics } from "aimed-movement/trace";

const RATE = 1000;
const OPTIONS = { sampleRateHz: RATE, nominalRateHz: RATE, quantum: 1 };
let trace;

createInterface({ input: process.stdin }).on("line", (line) => {
  const request = JSON.parse(line);
  console.log(JSON.stringify(answer(request)));
});

function answer({ n, warm, memory, task, runs = 1 }) {
  if (n !== undefined) {
    trace = layOut(n);
    return { ready: true };
  }
  if (warm) {
    // short recordings, many times, as a session of analyses would have done
    const part = { t: trace.t.subarray(0, 5000), x: trace.x.subarray(0, 5000), y: trace.y.subarray(0, 5000) };
    for (let i = 0; i < 400; i++) segmentMovements(part, OPTIONS);
    return { ready: true };
  }
  if (memory) return measureMemory();
  const begin = processorTime();
  if (task === "movements") {
    const { movements, enterSpeed } = segmentMovements(trace, OPTIONS);
    return { time: processorTime() - begin, count: movements.length, enter: enterSpeed };
  }
  let result;
  for (let i = 0; i < runs; i++) result = kinematics(trace, OPTIONS);
  const time = (processorTime() - begin) / runs;
  const { speed } = result.segments[0];
  let sum = 0;
  for (let i = 0; i < speed.length; i++) sum += speed[i];
  return { time, mean: sum / speed.length };
}

/** Seconds that this process has spent computing, its helper threads (collection of freed memory) included: other load does not count. */
function processorTime() {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** Columns of the recording's length that the chain takes on top of its input, options left out: the larger of what the buffers and what the process grew by. */
function measureMemory() {
  globalThis.gc();
  const column = 8 * trace.t.length;
  const before = process.memoryUsage();
  const result = kinematics(trace);
  const after = process.memoryUsage();
  const peak = process.resourceUsage().maxRSS * 1024;
  return {
    buffers: (after.arrayBuffers - before.arrayBuffers) / column,
    process: (peak - before.rss) / column,
    segments: result.segments.length,
  };
}

function layOut(n) {
  const t = new Float64Array(n);
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    t[i] = i / RATE + 0.0002 * Math.sin(1.7 * i);
    x[i] = path(t[i], 400, 0.8);
    y[i] = path(t[i], 300, 1.1);
  }
  return { t, x, y };
}

/** To and fro, each way a minimum-jerk movement of 0.3 s. */
function path(t, amplitude, period) {
  const turn = Math.floor(t / period);
  const share = Math.min(1, Math.max(0, (t - turn * period) / 0.3));
  const along = share ** 3 * (10 - 15 * share + 6 * share * share);
  return Math.round(amplitude * (turn % 2 === 0 ? along : 1 - along));
}
