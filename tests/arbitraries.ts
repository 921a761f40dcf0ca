// Random inputs for property tests. Everything here is valid by construction: what a test wants broken, it breaks itself.
//
// - `traceArb`, `recordingArb`, `sessionArb`: figures as a person with a mouse makes them, for the measures
// - `wildTraceArb`, `wildRecordingArb`, `wildSessionArb`: any finite number and any text, for what must lose nothing
import { fc } from "@fast-check/vitest";
import type { Equipment, Mark, Press, Recording, Session, Shape, Space, Target, Trace, Track, Trial } from "../src/trace/types.js";

/** How numbers and texts are drawn. */
interface Draw {
  /** Any time, seconds. */
  readonly time: fc.Arbitrary<number>;
  /** Time from one sample to the next, seconds, not negative; absent: times are drawn one by one and sorted. */
  readonly step?: fc.Arbitrary<number>;
  readonly position: fc.Arbitrary<number>;
  /** Above 0. */
  readonly size: fc.Arbitrary<number>;
  /** A text, not empty. */
  readonly id: fc.Arbitrary<string>;
  readonly text: fc.Arbitrary<string>;
  readonly value: fc.Arbitrary<number>;
  readonly maxSamples: number;
}

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const word = fc.stringMatching(/^[a-z][a-z0-9-]{0,7}$/);
// every character but halves of pairs, line ends and quotes among them
const anyText = fc.oneof(
  fc.string({ unit: "binary", maxLength: 12 }),
  fc.string({ unit: fc.constantFrom(..."a1,;\"'\r\n\t \\{}[]:é✓😀\u2028\ufeff\0") }),
);

/** Whole numbers from `low` to `high`, in steps of `unit`: doubles drawn from an interval crowd near zero. */
const steps = (low: number, high: number, perUnit: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.ceil(low * perUnit), max: Math.floor(high * perUnit) }).map((count) => count / perUnit);

const usual: Draw = {
  time: steps(0, 600, 1e6),
  step: fc.oneof({ weight: 9, arbitrary: steps(0, 0.02, 1e5) }, { weight: 1, arbitrary: steps(0, 0.4, 1e5) }),
  position: steps(-2000, 2000, 8),
  size: steps(1, 300, 4),
  id: word,
  text: word,
  value: steps(-1000, 1000, 10),
  maxSamples: 60,
};

const wild: Draw = {
  time: finite,
  position: finite,
  size: fc.double({ min: Number.MIN_VALUE, noDefaultInfinity: true, noNaN: true }),
  id: anyText.filter((text) => text !== ""),
  text: anyText,
  value: finite,
  maxSamples: 12,
};

const spaceArb: fc.Arbitrary<Space> = fc.constantFrom<Space>(
  { kind: "plane", unit: "px" },
  { kind: "plane", unit: "mm" },
  { kind: "plane", unit: "count" },
  { kind: "view", unit: "deg" },
);

/** Plain objects, as files and programs give them. */
const record = <T>(fields: { [K in keyof T]: fc.Arbitrary<T[K]> }): fc.Arbitrary<T> => fc.record<T>(fields, { noNullPrototype: true });

const optional = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(arbitrary, { nil: undefined });

/** Leaves out the fields that are `undefined`, for an absent field is absent. */
function compact<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, entry]) => entry !== undefined)) as never;
}

function times(draw: Draw, minLength: number): fc.Arbitrary<Float64Array> {
  const { step, time, maxSamples } = draw;
  if (!step) return fc.array(time, { minLength, maxLength: maxSamples }).map((t) => Float64Array.from(t).sort());
  return fc.tuple(time, fc.array(step, { minLength, maxLength: maxSamples })).map(([start, steps]) => {
    let now = start;
    return Float64Array.from(steps, (dt) => (now += dt));
  });
}

const column = (entries: fc.Arbitrary<number>, length: number): fc.Arbitrary<Float64Array> =>
  fc.array(entries, { minLength: length, maxLength: length }).map((values) => Float64Array.from(values));

function trace(draw: Draw, minLength = 0): fc.Arbitrary<Trace> {
  return times(draw, minLength).chain((t) =>
    record({ t: fc.constant(t), x: column(draw.position, t.length), y: column(draw.position, t.length) }),
  );
}

function track(draw: Draw): fc.Arbitrary<Track> {
  return trace(draw, 1).chain((path) =>
    optional(column(draw.size, path.t.length)).map((scale): Track => (scale === undefined ? path : { ...path, scale })),
  );
}

const ordered = (draw: Draw): fc.Arbitrary<readonly [number, number]> =>
  fc.tuple(draw.time, draw.time).map(([a, b]) => (a <= b ? ([a, b] as const) : ([b, a] as const)));

function shape(draw: Draw): fc.Arbitrary<Shape> {
  return fc.oneof(
    record({ kind: fc.constant("circle" as const), diameter: draw.size }),
    record({ kind: fc.constant("rect" as const), width: draw.size, height: draw.size, angle: optional(draw.value) }).map(
      (rect): Shape => compact(rect),
    ),
  );
}

function target(draw: Draw, id: string): fc.Arbitrary<Target> {
  return record({
    id: fc.constant(id),
    times: ordered(draw),
    stays: fc.boolean(),
    shape: shape(draw),
    at: fc.oneof(record({ x: draw.position, y: draw.position }), track(draw)),
    role: optional(fc.constantFrom("goal" as const, "distractor" as const)),
  }).map(({ times: [tShown, tGone], stays, ...rest }): Target => compact({ ...rest, tShown, tGone: stays ? undefined : tGone }));
}

function press(draw: Draw, targets: readonly string[]): fc.Arbitrary<Press> {
  return record({
    times: ordered(draw),
    released: fc.boolean(),
    by: fc.constantFrom("button" as const, "key" as const, "wheel" as const, "dwell" as const, "touch" as const),
    code: optional(draw.text),
    at: optional(record({ x: draw.position, y: draw.position })),
    credited: optional(fc.constantFrom<string | null>(null, ...targets)),
  }).map(({ times: [t, tUp], released, at, ...rest }): Press => compact({ ...rest, ...at, t, tUp: released ? tUp : undefined }));
}

function trial(draw: Draw, id: string, targets: readonly string[]): fc.Arbitrary<Trial> {
  return record({
    id: fc.constant(id),
    kind: fc.constantFrom("acquire" as const, "sequence" as const, "pursue" as const),
    times: ordered(draw),
    ended: fc.boolean(),
    goals: targets.length === 0 ? fc.constant([]) : fc.array(fc.constantFrom(...targets), { maxLength: 4 }),
    block: draw.text,
    condition: fc.dictionary(draw.text, fc.oneof(draw.value, draw.text), { maxKeys: 3, noNullPrototype: true }),
  }).map(({ times: [tStart, tEnd], ended, ...rest }): Trial => compact({ ...rest, tStart, tEnd: ended ? tEnd : undefined }));
}

function mark(draw: Draw): fc.Arbitrary<Mark> {
  return record({
    times: ordered(draw),
    lasts: fc.boolean(),
    kind: fc.constantFrom("gap" as const, "lift" as const, "edge" as const, "hidden" as const, "gain" as const),
  }).map(({ times: [t, tEnd], lasts, kind }): Mark => compact({ t, tEnd: lasts ? tEnd : undefined, kind }));
}

/** In time order; while one is held or lasts, the same does not begin again at that instant. */
function apart<T extends { readonly t: number }>(entries: readonly T[], key: (entry: T) => string): T[] {
  return [...new Map(entries.map((entry) => [key(entry), entry])).values()].sort((a, b) => a.t - b.t);
}

function recording(draw: Draw): fc.Arbitrary<Recording> {
  const ids = fc.uniqueArray(draw.id, { maxLength: 4 });
  return fc.tuple(ids, ids).chain(([targets, trials]) =>
    record({
      space: spaceArb,
      device: draw.text,
      trace: trace(draw),
      presses: fc.array(press(draw, targets), { maxLength: 5 }),
      targets: fc.tuple(...targets.map((id) => target(draw, id))),
      trials: fc.tuple(...trials.map((id) => trial(draw, id, targets))),
      marks: fc.array(mark(draw), { maxLength: 3 }),
      frames: optional(times(draw, 0)),
    }).map(
      ({ presses, marks, ...rest }): Recording =>
        compact({
          schema: 1 as const,
          ...rest,
          presses: apart(presses, ({ t, by, code }) => JSON.stringify([t, by, code])),
          marks: apart(marks, ({ t, kind }) => JSON.stringify([t, kind])),
        }),
    ),
  );
}

function equipment(draw: Draw): fc.Arbitrary<Equipment> {
  const known = optional(draw.size);
  return record({
    id: draw.text,
    refreshHz: known,
    frameCapHz: known,
    latency: known,
    reportHz: known,
    countsPerInch: known,
    mmPerPx: known,
    viewDistanceMm: known,
    degPerCount: known,
    fieldOfViewDeg: known,
  }).map((entries): Equipment => compact(entries));
}

const startedAt = fc
  .tuple(
    fc.date({ min: new Date("1990-01-01"), max: new Date("2090-01-01"), noInvalidDate: true }),
    fc.constantFrom("Z", "+02:00", "-09:30", "+14:00"),
  )
  .map(([date, offset]) => date.toISOString().replace("Z", offset));

const session = (draw: Draw): fc.Arbitrary<Session> =>
  record({
    person: draw.text,
    startedAt,
    equipment: equipment(draw),
    recordings: fc.array(recording(draw), { minLength: 1, maxLength: 3 }),
  });

export const recordingArb: fc.Arbitrary<Recording> = recording(usual);
export const sessionArb: fc.Arbitrary<Session> = session(usual);
export const wildSessionArb: fc.Arbitrary<Session> = session(wild);
