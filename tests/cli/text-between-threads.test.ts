// A text changes threads whole, in order, no faster than it is read; its fault goes along, and a reader that has had enough stops it.
import { MessageChannel } from "node:worker_threads";
import { describe, expect, it } from "vitest";
import { receiveText, sendText } from "../../src/cli/text-between-threads.js";
import { createRandom } from "../../src/math/random.js";

const MEGABYTE = 2 ** 20;
const idle = () => new Promise((go) => setTimeout(go, 20));

async function* cut(bytes: Uint8Array, size: number, onPiece: (length: number) => void = () => {}): AsyncGenerator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += size) {
    const piece = bytes.subarray(from, from + size);
    onPiece(piece.length);
    yield piece;
  }
}

function randomBytes(length: number): Uint8Array {
  const random = createRandom(length);
  return Uint8Array.from({ length }, () => Math.floor(256 * random.uniform()));
}

describe("a text between threads", () => {
  it.each([
    [0, 10],
    [1, 1],
    [16_384, 16_384],
    [100_000, 777],
    [3 * MEGABYTE + 5, 65_536],
    [2 * MEGABYTE, 2 * MEGABYTE],
  ])("of %i bytes in pieces of %i arrives whole and leaves what it came from as it was", async (length, size) => {
    const bytes = randomBytes(length);
    const { port1, port2 } = new MessageChannel();
    const sent = sendText(cut(bytes, size), port1);
    const parts: Uint8Array[] = [];
    for await (const part of receiveText(port2)) parts.push(part.slice());
    await sent;
    expect(Buffer.concat(parts).equals(bytes)).toBe(true);
    expect(parts.every((part) => part.length > 0 && part.length <= MEGABYTE)).toBe(true);
  });
  it("takes the memory of a part back when the next one is asked for", async () => {
    const { port1, port2 } = new MessageChannel();
    const sent = sendText(cut(new Uint8Array(20 * MEGABYTE), 65_536), port1);
    let held: Uint8Array | undefined;
    let large = 0;
    for await (const part of receiveText(port2)) {
      // what was handed back is gone for the reader
      if (held !== undefined) expect(held.byteLength).toBe(0);
      held = part;
      if (part.length === MEGABYTE) large++;
    }
    await sent;
    // the first parts are smaller, and the last is what was left
    expect(large).toBe(19);
  });
  it("waits until it is read", async () => {
    let taken = 0;
    const { port1, port2 } = new MessageChannel();
    const sent = sendText(
      cut(new Uint8Array(20 * MEGABYTE), 65_536, (length) => {
        taken += length;
      }),
      port1,
    );
    await idle();
    expect(taken).toBeLessThan(MEGABYTE);
    const text = receiveText(port2);
    await text.next();
    await idle();
    expect(taken).toBeLessThan(MEGABYTE);
    for await (const _ of text);
    await sent;
    expect(taken).toBe(20 * MEGABYTE);
  });
  it("brings what came before the fault that kept the rest from being read, and the fault", async () => {
    const { port1, port2 } = new MessageChannel();
    async function* broken(): AsyncGenerator<Uint8Array> {
      yield new Uint8Array(20_000);
      throw new RangeError("one session must have at most 1 MiB, got more");
    }
    void sendText(broken(), port1);
    let length = 0;
    const read = async () => {
      for await (const part of receiveText(port2)) length += part.length;
    };
    await expect(read()).rejects.toThrow("one session must have at most 1 MiB, got more");
    expect(length).toBe(20_000);
  });
  it("is given up when nobody reads on, and what it came from hears of it", async () => {
    let isClosed = false;
    async function* endless(): AsyncGenerator<Uint8Array> {
      try {
        for (;;) yield new Uint8Array(65_536);
      } finally {
        isClosed = true;
      }
    }
    const { port1, port2 } = new MessageChannel();
    const sent = sendText(endless(), port1);
    for await (const _ of receiveText(port2)) break;
    await sent;
    expect(isClosed).toBe(true);
  });
});
