import { analyseSession } from "./analyse-session.js";
import type { SentTask } from "./crew.js";
import { receiveText } from "./text-between-threads.js";

/** What a worker thread does: one session at a time, its outcome as JSON, which costs a thread less to take over than objects. */
export default async function work({ text, ...rest }: SentTask): Promise<string> {
  return JSON.stringify(await analyseSession({ ...rest, ...(text && { pieces: receiveText(text) }) }));
}
