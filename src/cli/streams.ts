/** Something to write to: a stream of Node, or a test's. */
export interface Sink {
  readonly isTTY?: boolean;
  write(content: string | Uint8Array): boolean;
  once(event: "drain", then: () => void): unknown;
}

/** What a program reads from and writes to. */
export interface Streams {
  readonly stdin: AsyncIterable<Uint8Array | string> & { readonly isTTY?: boolean };
  readonly stdout: Sink;
  readonly stderr: Sink;
}

/** Writes, and waits while the reader is slower. */
export async function send(sink: Sink, content: string | Uint8Array): Promise<void> {
  if (!sink.write(content)) await new Promise<void>((resolve) => sink.once("drain", resolve));
}

/** The message of whatever was thrown, on one line. */
export function messageOf(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).replace(/\s*\n\s*/g, " ");
}
