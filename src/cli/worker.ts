import { analyseSession } from "./analyse-session.js";
import type { PackedTask } from "./crew.js";

/** What a worker thread does: one session at a time, its outcome as JSON, which costs a thread less to take over than objects. */
export default async function work({ text, ...rest }: PackedTask): Promise<string> {
  return JSON.stringify(await analyseSession(text === undefined ? rest : { ...rest, pieces: unpack(text) }));
}

async function* unpack({ pieces, fault }: NonNullable<PackedTask["text"]>): AsyncGenerator<Uint8Array> {
  // each is let go of once it is read: the text is as large as what is made of it
  while (pieces.length > 0) yield pieces.shift()!;
  if (fault !== undefined) throw new Error(fault);
}
