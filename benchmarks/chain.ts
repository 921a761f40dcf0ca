// From samples to speed and movements, at the size of a long session: against NumPy and SciPy in the same run, growth with size, and memory.
import { type ChildProcess, spawn } from "node:child_process";
import { resolve } from "node:path";
import { createInterface } from "node:readline";
import { median } from "simple-statistics";
import type { Outcome } from "../tests/validation/figure.js";

/** Runs of either side, in turns. */
const PAIRS = 15;
/** Runs before these, not counted. */
const WARM_PAIRS = 3;
const SAMPLES = 1e6;
const TASKS = [
  ["speed", "interp, butter, filtfilt, gradient, hypot"],
  ["movements", "the same, then threshold crossings"],
] as const;
/** Runs at each size, timed together. */
const SIZES: readonly (readonly [n: number, runs: number])[] = [
  [1e4, 2000],
  [1e5, 200],
  [1e6, 20],
  [1e7, 4],
];
const LEAST_RATIO = 2;
const MOST_EXPONENT = 1.1;
const MOST_COLUMNS = 8;
/** Both sides keep freed memory instead of handing it back after every run, so that neither is timed on the system's page handling. */
const KEEP_MEMORY = { MALLOC_MMAP_THRESHOLD_: "4000000000", MALLOC_TRIM_THRESHOLD_: "8000000000" };

/** What a side answers, by what it was asked for. */
interface Answer {
  readonly version?: string;
  /** Seconds of processor time. */
  readonly time?: number;
  /** Mean speed. */
  readonly mean?: number;
  /** Movements found, and the speed at which one begins. */
  readonly count?: number;
  readonly enter?: number;
  /** Columns that the buffers and the process grew by. */
  readonly buffers?: number;
  readonly process?: number;
}

/** A process that answers one line to each line it is sent. */
interface Side {
  ask(request: object): Promise<Answer>;
  stop(): void;
}

export async function run(): Promise<Outcome[]> {
  return [...(await race()), await growth(), await memory()];
}

/** How many times as long SciPy takes for the same steps on the same samples. */
async function race(): Promise<Outcome[]> {
  const rival = start(process.env.PYTHON ?? "python3", [resolve("benchmarks", "chain.py")], KEEP_MEMORY);
  const ours = startOurs(KEEP_MEMORY);
  try {
    const version = await rival.ask({ version: true }).then(
      (answer) => answer.version,
      (reason: Error) => reason,
    );
    if (version instanceof Error) {
      const skipped = `needs Python with SciPy (the variable PYTHON can name it): ${version.message}`;
      return TASKS.map(([task]) => ({ name: nameOf(task), skipped }));
    }
    await Promise.all([rival.ask({ n: SAMPLES }), ours.ask({ n: SAMPLES })]);
    await ours.ask({ warm: true });
    const { enter } = await ours.ask({ task: "movements" });
    const outcomes: Outcome[] = [];
    for (const [task, steps] of TASKS) {
      const times: [number, number][] = [];
      for (let pair = -WARM_PAIRS; pair < PAIRS; pair++) {
        const mine = await ours.ask({ task });
        const theirs = await rival.ask({ task, enter });
        const same = task === "speed" ? Math.abs(theirs.mean! / mine.mean! - 1) < 1e-6 : theirs.count === mine.count;
        if (!same) throw new Error(`the two sides differ: ${JSON.stringify(mine)} and ${JSON.stringify(theirs)}`);
        if (pair >= 0) times.push([mine.time!, theirs.time!]);
      }
      outcomes.push(figure(nameOf(task), times, `${version}: ${steps}`));
    }
    return outcomes;
  } finally {
    rival.stop();
    ours.stop();
  }
}

const nameOf = (task: string): string => `trace/samples to ${task}, 1e6 samples`;

function figure(name: string, times: readonly (readonly [mine: number, theirs: number])[], steps: string): Outcome {
  // the least time of either side, as Python's timeit advises: others on a shared machine slow a run down and never speed it up. What a pair says
  // beside a busy neighbour, and a late collection of memory, shows in the ratios of the pairs
  const ratios = times.map(([a, b]) => b / a).sort((a, b) => a - b);
  const [mine, theirs] = [Math.min(...times.map(([time]) => time)), Math.min(...times.map(([, time]) => time))];
  const value = theirs / mine;
  const pairs = `${ratios.length} pairs ${median(ratios).toFixed(2)} (${ratios[0]!.toFixed(2)} to ${ratios[ratios.length - 1]!.toFixed(2)})`;
  const source = `${steps}; least processor time, ${(1000 * theirs).toFixed(1)} against ${(1000 * mine).toFixed(1)} ms; median of ${pairs}`;
  // the bar is on the whole way to movements; the way to speed alone also keeps the velocity columns, which SciPy's side drops
  const barred = name === nameOf("movements");
  return { name, value, bar: barred ? `>= ${LEAST_RATIO} times SciPy's time` : "printed", ok: !barred || value >= LEAST_RATIO, source };
}

/** Power of the number of samples with which the time grows, from a line through logarithms. */
async function growth(): Promise<Outcome> {
  const ours = startOurs(KEEP_MEMORY);
  const points: [number, number][] = [];
  for (const [n, runs] of SIZES) {
    await ours.ask({ n });
    await ours.ask({ warm: true });
    // until the memory that is kept suffices for what a run takes
    for (let run = 0; run < WARM_PAIRS; run++) await ours.ask({ task: "speed" });
    const { time } = await ours.ask({ task: "speed", runs });
    points.push([Math.log10(n), Math.log10(time!)]);
  }
  ours.stop();
  const [meanX, meanY] = [0, 1].map((k) => points.reduce((sum, point) => sum + point[k]!, 0) / points.length) as [number, number];
  const value = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0) / points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  const source = points.map(([x, y]) => `1e${x}: ${(1000 * 10 ** y).toPrecision(3)} ms`).join(", ");
  return { name: "trace/growth of the time to speed", value, bar: `<= ${MOST_EXPONENT} (exponent)`, ok: value <= MOST_EXPONENT, source };
}

async function memory(): Promise<Outcome> {
  const n = 4e6;
  const ours = startOurs({});
  await ours.ask({ n });
  const { buffers, process: grown } = await ours.ask({ memory: true });
  ours.stop();
  const value = Math.max(buffers!, grown!);
  const source = `buffers ${buffers!.toFixed(2)}, peak of the process ${grown!.toFixed(2)}, ${n} samples, all options left out`;
  return { name: "trace/memory of samples to speed", value, bar: `<= ${MOST_COLUMNS} columns`, ok: value <= MOST_COLUMNS, source };
}

const startOurs = (env: Record<string, string>): Side => start(process.execPath, ["--expose-gc", resolve("benchmarks", "chain.mjs")], env);

function start(command: string, args: readonly string[], env: Record<string, string>): Side {
  const { NODE_OPTIONS: _, ...inherited } = process.env;
  const child: ChildProcess = spawn(command, args, { env: { ...inherited, ...env }, stdio: ["pipe", "pipe", "pipe"] });
  let complaint = "";
  let failed: Error | undefined;
  let pending: { resolve: (line: string) => void; reject: (reason: Error) => void } | undefined;
  const fail = (message: string): void => {
    failed = new Error(message);
    pending?.reject(failed);
  };
  child.stderr!.on("data", (text) => {
    complaint += text;
  });
  child.stdin!.on("error", () => {});
  child.on("error", (error) => fail(error.message));
  child.on("close", () => fail(complaint.trim().split("\n").pop() ?? "ended"));
  createInterface({ input: child.stdout! }).on("line", (line) => pending?.resolve(line));
  return {
    ask: async (request) => {
      if (failed) throw failed;
      const line = await new Promise<string>((resolve, reject) => {
        pending = { resolve, reject };
        child.stdin!.write(`${JSON.stringify(request)}\n`);
      });
      return JSON.parse(line);
    },
    stop: () => child.kill(),
  };
}
