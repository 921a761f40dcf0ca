// One block on the stage: the recorder's chunks, completed by the task with its targets, trials and counted presses.
import { createRecorder } from "../../src/record/index.js";
import type { Chunk, Press, Recording, Space } from "../../src/trace/types.js";
import { joined, recordingOf } from "./recording-of.js";
import type { Stage } from "./stage.js";
import type { Task } from "./task.js";

/** Why a block ended. */
export type Ending = "done" | "stopped" | "hidden" | "smaller";

export interface RunOptions {
  /** The value of `performance.now()` that is t = 0, ms. */
  readonly origin: number;
  readonly onBegin: (space: Space, startedAt: string) => void;
  readonly onChunk: (chunk: Chunk) => void;
  /** Called when what is asked for, or how far it has come, has changed; one of both is empty. */
  readonly onWords: (asks: string, progress: string) => void;
  /** `undefined` when no trial was begun: there is nothing to keep. */
  readonly onEnd: (why: Ending, recording: Recording | undefined) => void;
}

/** Seconds between chunks. */
const EVERY = 0.1;
/** The last acquisition is final 0.2 s after its press, and the release is worth waiting for. */
const RUN_ON = 0.5;

/** Runs a task on a stage from now on; the result ends it. */
export function runTask(stage: Stage, task: Task, options: RunOptions): () => void {
  const { element } = stage;
  const recorder = createRecorder(element, { origin: options.origin });
  const begun = recorder.toSeconds(performance.now());
  const begunWith = stage.size();
  const kept: Chunk[] = [];
  const counted = new Map<string, string | null | undefined>();
  const devices = new Set<string>();
  const listening = new AbortController();
  let waiting: Chunk[] = [];
  let told = Number.NEGATIVE_INFINITY;
  let said = "";
  let request = 0;

  const count = (press: Press): Press => {
    const key = `${press.t} ${press.code}`;
    if (!counted.has(key)) counted.set(key, task.judge(press));
    const credited = counted.get(key);
    return credited === undefined ? press : { ...press, credited };
  };

  const give = (): void => {
    const chunk = { ...joined(waiting), ...task.news() };
    waiting = [];
    kept.push(chunk);
    options.onChunk(chunk);
  };

  const take = (chunk: Chunk): void => {
    const { t, x, y } = chunk.trace;
    waiting.push({ ...chunk, presses: (chunk.presses ?? []).map(count) });
    const newest = t.length - 1;
    if (task.isSettled(newest < 0 ? undefined : { x: x[newest]!, y: y[newest]! })) give();
  };

  const sayWords = (): void => {
    const { asks, progress } = task.words();
    if (asks + progress !== said) options.onWords(asks, progress);
    said = asks + progress;
  };

  const end = (why: Ending): void => {
    if (listening.signal.aborted) return;
    listening.abort();
    cancelAnimationFrame(request);
    sizes.disconnect();
    const last = recorder.stop();
    waiting.push({ ...last, presses: (last.presses ?? []).map(count) });
    task.breakOff(last.until!);
    give();
    stage.draw([]);
    const recording = recordingOf(kept, recorder.space, [...devices].sort().join(" and ") || "unknown");
    options.onEnd(why, recording.trials.length > 0 ? recording : undefined);
  };

  const onFrame = (timeStamp: number): void => {
    const t = recorder.toSeconds(timeStamp);
    // a frame that began before the recorder is none of its frames
    if (t > begun) stage.draw(task.frame(t));
    sayWords();
    if (t > (task.overAt() ?? Number.POSITIVE_INFINITY) + RUN_ON) {
      end("done");
      return;
    }
    if (t - told >= EVERY) {
      told = t;
      take(recorder.take());
    }
    request = requestAnimationFrame(onFrame);
  };

  const listen = <Type extends keyof DocumentEventMap>(
    target: EventTarget,
    type: Type,
    listener: (event: DocumentEventMap[Type]) => void,
  ) => target.addEventListener(type, listener as EventListener, { signal: listening.signal });
  // the recorder has the press by now, since it listens at the window; the next frame shows the next target
  listen(element, "pointerdown", () => take(recorder.take()));
  listen(element, "pointermove", ({ pointerType }) => devices.add(pointerType));
  listen(element, "pointerdown", ({ pointerType }) => devices.add(pointerType));
  listen(element, "contextmenu", (event) => event.preventDefault());
  listen(document, "keydown", ({ key }) => key === "Escape" && end("stopped"));
  listen(document, "visibilitychange", () => document.hidden && end("hidden"));
  // places count from the top left, so that a field that grows, or moves, changes nothing
  const sizes = new ResizeObserver(() => {
    const { width, height } = stage.size();
    if (width < begunWith.width - 1 || height < begunWith.height - 1) end("smaller");
  });
  sizes.observe(element);

  options.onBegin(recorder.space, recorder.startedAt);
  request = requestAnimationFrame(onFrame);
  return () => end("stopped");
}
