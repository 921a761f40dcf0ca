import { analyseInOrder, type Job } from "./analyse-in-order.js";
import { type Crew, hireCrew } from "./crew.js";
import type { Input } from "./find-inputs.js";
import type { Entry, Journal } from "./journal.js";
import type { Limits } from "./limits.js";
import type { Settings } from "./parse-arguments.js";
import { readSessions } from "./read-sessions.js";
import type { Streams } from "./streams.js";
import type { Teller } from "./tell.js";

/** With what inputs are read. */
export interface Means {
  readonly settings: Settings;
  readonly limits: Limits;
  readonly streams: Streams;
  readonly teller: Teller;
  /** Of all inputs that have a size. */
  readonly bytes: number;
  readonly journal?: Journal | undefined;
}

/** What came of every session of every input, in their order: first what an earlier run has done with, from its journal, then the rest. */
export async function* readOutcomes(inputs: readonly Input[], means: Means): AsyncGenerator<Entry> {
  const { journal } = means;
  let input = 0;
  let done = 0;
  for (const entry of journal?.entries() ?? []) {
    done = entry.input === input ? done + 1 : 1;
    input = entry.input;
    yield entry;
  }
  for await (const one of analyseRest(inputs, means, input, done)) {
    const { input: at, outcome } = one;
    yield journal?.append(one) ?? { input: at, outcome, recall: () => outcome };
  }
}

/** Analyses what is not done with: from the input on, but for its first sessions. */
async function* analyseRest(inputs: readonly Input[], means: Means, first: number, done: number) {
  const { settings, limits, streams } = means;
  const begun = Date.now();
  let crew: Promise<Crew> | undefined;
  let bytes = 0;
  let sessions = 0;
  async function* jobs(): AsyncGenerator<Job, void> {
    for (const [input, path] of inputs.entries()) {
      if (input < first) continue;
      const onBytes = async (more: number): Promise<void> => {
        bytes += more;
        const isWhole = !inputs.some(({ kind }) => kind === "stdin");
        const total = isWhole && first === 0 && means.bytes > 0 ? { total: means.bytes } : {};
        await means.teller.at({ file: input + 1, files: inputs.length, bytes, ...total, seconds: (Date.now() - begun) / 1000 });
      };
      const reading = { repair: settings.repair, form: settings.form, mostBytes: limits.mostBytes, onBytes };
      for await (const found of readSessions(path, streams.stdin, reading, input === first ? done : 0)) {
        sessions++;
        yield { ...found, input };
      }
    }
  }
  // the first session of a lone file may be all there is, unless the file is too large for one
  const isMuch = (): boolean =>
    (inputs.length > 1 || sessions > 1 || means.bytes > limits.mostBytes) && Math.max(bytes, means.bytes) >= limits.manyBytes;
  const hire = async (): Promise<Crew | undefined> => {
    if (limits.worker === undefined || settings.workers === 1 || !isMuch()) return undefined;
    crew ??= hireCrew(limits.worker, settings.workers);
    return crew;
  };
  try {
    yield* analyseInOrder(jobs(), hire, { sessions: 2 * settings.workers, bytes: limits.mostBytes });
  } finally {
    await (await crew)?.dismiss();
  }
}
