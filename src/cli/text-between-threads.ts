import { on } from "node:events";
import type { MessagePort } from "node:worker_threads";
import { messageOf } from "./streams.js";

/** Bytes of text that change threads at a time: at first, and at most. */
const FIRST_PART = 2 ** 14;
const PART = 2 ** 20;
/** Parts that are on their way: while one is read, the next is there already. */
const AHEAD = 2;

/** What goes through a port: a part of a text, its end, or what kept the rest of it from being read. The other way goes the memory of parts that were read, for others. */
type Message = { readonly part: Uint8Array<ArrayBuffer> } | { readonly end: true } | { readonly fault: string };

/** Sends a text through a port as its reader makes room, up to the end or until nobody reads any more. Its memory goes along, and comes back. */
export async function sendText(pieces: AsyncIterable<Uint8Array>, port: MessagePort): Promise<void> {
  let room = AHEAD;
  let isRead = true;
  let go = (): void => {};
  const read: ArrayBuffer[] = [];
  port.on("message", (memory: ArrayBuffer) => {
    room++;
    read.push(memory);
    go();
  });
  port.on("close", () => {
    isRead = false;
    go();
  });
  const send = (message: Message, memory: ArrayBuffer[] = []): void => port.postMessage(message, memory);
  try {
    for await (const part of gather(pieces, read)) {
      while (room === 0 && isRead) {
        await new Promise<void>((resolve) => {
          go = resolve;
        });
      }
      if (!isRead) return;
      room--;
      send({ part }, [part.buffer]);
    }
    send({ end: true });
  } catch (error) {
    // found where the text is analysed, so that the first fault of a session is the same whoever reads it
    send({ fault: messageOf(error) });
  }
}

/** The text that comes through a port. The memory of a part goes back when the next one is asked for. */
export async function* receiveText(port: MessagePort): AsyncGenerator<Uint8Array> {
  try {
    for await (const [message] of on(port, "message") as AsyncIterable<[Message]>) {
      if ("end" in message) return;
      if ("fault" in message) throw new Error(message.fault);
      yield message.part;
      port.postMessage(message.part.buffer, [message.part.buffer]);
    }
  } finally {
    port.close();
  }
}

/** Memory that was read, where some is of this size: new memory costs more than what is written into it. */
function memoryFrom(read: ArrayBuffer[], size: number): Uint8Array<ArrayBuffer> {
  for (let memory = read.pop(); memory !== undefined; memory = read.pop()) if (memory.byteLength === size) return new Uint8Array(memory);
  return new Uint8Array(size);
}

/** Pieces put together to parts, each twice as large as the one before up to the largest, in memory of `read` or of its own. */
async function* gather(pieces: AsyncIterable<Uint8Array>, read: ArrayBuffer[]): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  let part = memoryFrom(read, FIRST_PART);
  let length = 0;
  const rest = (): Uint8Array<ArrayBuffer>[] => (length > 0 ? [part.slice(0, length)] : []);
  try {
    for await (const piece of pieces) {
      for (let from = 0; from < piece.length; ) {
        const taken = piece.subarray(from, from + part.length - length);
        part.set(taken, length);
        length += taken.length;
        from += taken.length;
        if (length < part.length) continue;
        const { length: size } = part;
        yield part;
        part = memoryFrom(read, Math.min(PART, 2 * size));
        length = 0;
      }
    }
  } catch (error) {
    // what came before it may hold a fault of its own
    yield* rest();
    throw error;
  }
  yield* rest();
}
