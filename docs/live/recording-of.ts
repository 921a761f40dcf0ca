// Chunks to a recording. What is given again takes the place of what was given before.
import type { Chunk, Recording, Space } from "../../src/trace/types.js";

/** Chunks that follow each other as one. */
export function joined(chunks: readonly Chunk[]): Chunk {
  const until = chunks[chunks.length - 1]?.until;
  return {
    trace: {
      t: column(chunks.map(({ trace }) => trace.t)),
      x: column(chunks.map(({ trace }) => trace.x)),
      y: column(chunks.map(({ trace }) => trace.y)),
    },
    presses: latest(chunks, "presses", ({ t, by, code }) => `${t} ${by} ${code}`),
    targets: latest(chunks, "targets", ({ id }) => id),
    trials: latest(chunks, "trials", ({ id }) => id),
    marks: latest(chunks, "marks", ({ t, kind }) => `${t} ${kind}`),
    frames: column(chunks.map(({ frames }) => frames ?? new Float64Array(0))),
    ...(until !== undefined && { until }),
  };
}

export function recordingOf(chunks: readonly Chunk[], space: Space, device: string): Recording {
  const { until, ...rest } = joined(chunks);
  return { schema: 1, space, device, presses: [], targets: [], trials: [], marks: [], ...rest };
}

function column(parts: readonly Float64Array[]): Float64Array {
  const whole = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let from = 0;
  for (const part of parts) {
    whole.set(part, from);
    from += part.length;
  }
  return whole;
}

type ListName = "presses" | "targets" | "trials" | "marks";
type Entry<Name extends ListName> = NonNullable<Chunk[Name]>[number];

/** Entries in the order in which they came, each as it was given last. */
function latest<Name extends ListName>(chunks: readonly Chunk[], name: Name, keyOf: (entry: Entry<Name>) => string): Entry<Name>[] {
  const entries = new Map<string, Entry<Name>>();
  for (const chunk of chunks) for (const entry of (chunk[name] ?? []) as readonly Entry<Name>[]) entries.set(keyOf(entry), entry);
  return [...entries.values()];
}
