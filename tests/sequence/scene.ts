// Sequences made by hand: rows and the recording they could have come from, every instant and place known.
import type { Acquisition, Offset } from "../../src/movement/types.js";
import type { Recording, Target, Trial } from "../../src/trace/types.js";

/** One acquisition: which target, how long until the onset, where the primary and the press ended off its centre. */
export interface Take {
  readonly target: number;
  readonly latency?: number;
  /** Seconds from onset to the end of the primary, default 0.3. */
  readonly primary?: number;
  readonly primaryError?: readonly [along: number, across: number];
  readonly pressError?: readonly [along: number, across: number];
  readonly outcome?: Acquisition["outcome"];
  readonly stopInside?: boolean;
}

export interface SceneTrial {
  readonly start: readonly [number, number];
  readonly places: readonly (readonly [number, number])[];
  readonly takes: readonly Take[];
  readonly width?: number;
}

/** Trials one after the other; a movement starts at the centre of the target before it. */
export function scene(trials: readonly SceneTrial[], t0 = 0): { recording: Recording; rows: Acquisition[] } {
  const targets: Target[] = [];
  const made: Trial[] = [];
  const rows: Acquisition[] = [];
  const samples: [number, number, number][] = [];
  let clock = t0 + 1;
  trials.forEach(({ start, places, takes, width = 40 }, i) => {
    const id = (j: number): string => `${i}-${j}`;
    const tStart = clock;
    let at = start;
    samples.push([tStart - 0.5, ...start]);
    const ends = new Map<number, number>();
    for (const take of takes) {
      const go = clock;
      const { latency = 0.2, primary = 0.3, outcome = "hit" } = take;
      const onset = go + latency;
      const end = Math.max(onset, go) + primary + 0.15;
      const place = places[take.target]!;
      samples.push([onset, ...at], [end - 0.01, ...place]);
      const offset = ([along, across]: readonly [number, number]): Offset => {
        const radial = Math.hypot(along, across);
        return { along, across, radial, inside: radial <= width / 2 };
      };
      rows.push({
        trial: `trial-${i}`,
        target: id(take.target),
        block: "1",
        outcome,
        pressedInMotion: false,
        times: { go, onset, peak: onset + primary / 2, primaryEnd: onset + primary, stop: end - 0.05, press: end, end },
        budget: { latency, primary, correction: end - 0.05 - onset - primary, clutch: 0, verification: 0.05, recovery: 0 },
        amplitude: Math.hypot(place[0] - at[0], place[1] - at[1]),
        width,
        submovements: [],
        corrections: [],
        errors: {
          primary: offset(take.primaryError ?? [0, 0]),
          stop: { ...offset([0, 0]), inside: take.stopInside ?? true },
          press: offset(take.pressError ?? [0, 0]),
        },
        flags: latency < 0 ? ["beforeGo"] : [],
      });
      ends.set(take.target, end);
      at = place;
      clock = end;
    }
    places.forEach(([x, y], j) => {
      targets.push({ id: id(j), tShown: tStart, tGone: ends.get(j) ?? clock, shape: { kind: "circle", diameter: width }, at: { x, y } });
    });
    made.push({
      id: `trial-${i}`,
      kind: "sequence",
      tStart,
      tEnd: clock,
      goals: places.map((_, j) => id(j)),
      block: "1",
      condition: {},
    });
    clock += 2;
  });
  samples.sort((a, b) => a[0] - b[0]);
  const column = (k: 0 | 1 | 2): Float64Array => Float64Array.from(samples, (sample) => sample[k]);
  const recording: Recording = {
    schema: 1,
    space: { kind: "plane", unit: "px" },
    device: "by hand",
    trace: { t: column(0), x: column(1), y: column(2) },
    presses: [],
    targets,
    trials: made,
    marks: [],
  };
  return { recording, rows };
}
