// The worker, fetched when it is first asked something.
import { loadScript } from "./load-script.js";
import type { Answer, Request } from "./messages.js";

declare global {
  /** The text of the worker's script: a worker of an address cannot be made by a page opened as a file. */
  var aimedMovementWorker: string | undefined;
}

/** Asks the library; answers come in the order of the requests. */
export function createAnalyst(onAnswer: (answer: Answer) => void): (request: Request) => void {
  const refuse = (why: string): void => onAnswer({ kind: "refused", why });
  const hire = async (): Promise<Worker> => {
    await loadScript("live-worker.js");
    const worker = new Worker(URL.createObjectURL(new Blob([globalThis.aimedMovementWorker!], { type: "text/javascript" })));
    worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => onAnswer(data));
    worker.addEventListener("error", ({ message }) => refuse(message));
    return worker;
  };
  let hired: Promise<Worker> | undefined;
  return (request) => {
    hired ??= hire();
    hired.then(
      (worker) => worker.postMessage(request),
      (error: Error) => {
        hired = undefined;
        refuse(error.message);
      },
    );
  };
}
