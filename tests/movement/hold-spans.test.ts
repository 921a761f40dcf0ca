import { describe, expect, it } from "vitest";
import { holdSpans } from "../../src/movement/tremor/hold-spans.js";
import type { Acquisition } from "../../src/movement/types.js";
import type { Mark } from "../../src/trace/types.js";
import { recordingOf } from "./hand-made.js";
import { rowOf } from "./rows.js";

const empty = new Float64Array(0);
const spans = (rows: readonly Acquisition[] | undefined, marks: readonly Mark[] = []) => {
  const t = Float64Array.from({ length: 11 }, (_, i) => i);
  const zero = new Float64Array(11);
  const found = holdSpans(recordingOf({ trace: { t, x: zero, y: zero }, marks }), rows);
  return found.map(({ from, to }) => [Number(from.toFixed(9)), Number(to.toFixed(9))]);
};
/** Moves from 2 to 3, with a press at 4 and what else is given. */
const row = (times: Partial<Acquisition["times"]>): Acquisition =>
  rowOf(1, {}, { times: { go: 1, onset: 2, peak: 2.5, primaryEnd: 3, stop: 3, press: 4, end: 4, ...times } });
const bare = (times: Acquisition["times"]): Acquisition => rowOf(1, {}, { times });

// Source: worked by hand: what lies between 0 and 10 s outside the movement and the press, each widened by 0.1 s.
describe("holdSpans against outside values", () => {
  it.each([
    ["no rows: all of it", undefined, [[0, 10]]],
    [
      "press without a release",
      [row({})],
      [
        [0, 1.9],
        [3.1, 3.9],
        [4.1, 10],
      ],
    ],
    [
      "a release after the end",
      [row({ up: 5 })],
      [
        [0, 1.9],
        [3.1, 3.9],
        [5.1, 10],
      ],
    ],
    [
      "an end after the release, as with a second try",
      [row({ up: 4.5, end: 6 })],
      [
        [0, 1.9],
        [3.1, 3.9],
        [6.1, 10],
      ],
    ],
    [
      "an end without a release",
      [row({ end: 6 })],
      [
        [0, 1.9],
        [3.1, 3.9],
        [6.1, 10],
      ],
    ],
    [
      "a movement without a stop lasts to the end",
      [bare({ go: 1, onset: 2, end: 7 })],
      [
        [0, 1.9],
        [7.1, 10],
      ],
    ],
    [
      "a press without a movement",
      [bare({ go: 1, press: 4, up: 4.5, end: 4 })],
      [
        [0, 3.9],
        [4.6, 10],
      ],
    ],
    ["neither movement nor press", [bare({ go: 1, end: 4 })], [[0, 10]]],
    [
      "one row within the other",
      [row({ onset: 1, stop: 8 }), row({})],
      [
        [0, 0.9],
        [8.1, 10],
      ],
    ],
    ["up to the last sample", [bare({ go: 1, onset: 2, stop: 9.95, end: 9.95 })], [[0, 1.9]]],
    ["from the first sample on", [bare({ go: 0, onset: 0.05, stop: 1, end: 1 })], [[1.1, 10]]],
  ] as const)("%s", (_, rows, expected) => expect(spans(rows)).toEqual(expected));

  it.each([
    ["gap", [[0, 1.9]]],
    ["hidden", [[0, 1.9]]],
    [
      "lift",
      [
        [0, 1.9],
        [2.1, 10],
      ],
    ],
    [
      "edge",
      [
        [0, 1.9],
        [2.1, 10],
      ],
    ],
    [
      "gain",
      [
        [0, 1.9],
        [2.1, 10],
      ],
    ],
  ] as const)("leaves out all after a %s without an end only where samples stay away", (kind, expected) => {
    expect(spans(undefined, [{ t: 2, kind }])).toEqual(expected);
    expect(spans(undefined, [{ t: 2, tEnd: 5, kind }])).toEqual([
      [0, 1.9],
      [5.1, 10],
    ]);
  });

  it("takes rows and marks in any order", () => {
    const later = row({ onset: 6, stop: 7, press: 7.5, end: 7.5 });
    const expected = [
      [0, 0.4],
      [0.6, 1.9],
      [3.1, 3.9],
      [4.1, 5.9],
      [7.1, 7.4],
      [7.6, 10],
    ];
    expect(spans([later, row({})], [{ t: 0.5, kind: "edge" }])).toEqual(expected);
    expect(spans([row({}), later], [{ t: 0.5, kind: "edge" }])).toEqual(expected);
  });

  it("has none without samples", () => expect(holdSpans(recordingOf({ trace: { t: empty, x: empty, y: empty } }), undefined)).toEqual([]));
});
