// Acquisition rows by hand and at random, for what is made from rows.
import { fc } from "@fast-check/vitest";
import type { Acquisition, Budget, Flag, Offset } from "../../src/movement/types.js";

const NOTHING: Budget = { latency: 0, primary: 0, correction: 0, clutch: 0, verification: 0, recovery: 0 };

/** A hit that begins at `go`, its parts as given, its errors absent unless given. */
export function rowOf(go: number, parts: Partial<Budget>, more: Partial<Acquisition> = {}): Acquisition {
  const budget = { ...NOTHING, ...parts };
  const end = go + Object.values(budget).reduce((sum, part) => sum + part, 0);
  const onset = go + budget.latency;
  const press = end - budget.recovery;
  const stop = press - budget.verification;
  return {
    trial: `trial ${go}`,
    target: "a",
    block: "1",
    outcome: "hit",
    pressedInMotion: false,
    times: { go, onset, peak: onset + budget.primary / 2, primaryEnd: onset + budget.primary, stop, press, up: end + 0.08, end },
    budget,
    amplitude: 300,
    width: 10,
    peakSpeed: 1000,
    submovements: [],
    corrections: [],
    errors: {},
    flags: [],
    ...more,
  };
}

/** An error that lies `along` and `across` of the centre of a target 10 wide. */
export function errorOf(along: number, across: number): Offset {
  const radial = Math.hypot(along, across);
  return { along, across, radial, inside: radial <= 5 };
}

const partArb = fc.integer({ min: 0, max: 500 }).map((ms) => ms / 1000);
const flagArb = fc.constantFrom<Flag>(
  "noMovement",
  "noAxis",
  "beforeGo",
  "shortPrimary",
  "clutch",
  "missingData",
  "edge",
  "belowResolution",
  "longPress",
);
const offsetArb = fc.option(
  fc.tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: -60, max: 60 })).map(([a, b]) => errorOf(a / 4, b / 4)),
  { nil: undefined },
);

/** Rows of one sitting, one after another with pauses. */
export const rowsArb: fc.Arbitrary<Acquisition[]> = fc
  .array(
    fc.record({
      pause: partArb,
      budget: fc.record({
        latency: partArb,
        primary: partArb,
        correction: partArb,
        clutch: partArb,
        verification: partArb,
        recovery: partArb,
      }),
      outcome: fc.constantFrom<Acquisition["outcome"]>("hit", "miss", "recovered", "timeout", "abandoned"),
      pressedInMotion: fc.boolean(),
      primary: offsetArb,
      stop: offsetArb,
      press: offsetArb,
      flags: fc.uniqueArray(flagArb, { maxLength: 2 }),
    }),
    { maxLength: 12 },
  )
  .map((drawn) => {
    let now = 10;
    return drawn.map(({ pause, budget, primary, stop, press, ...rest }) => {
      const errors = { ...(primary && { primary }), ...(stop && { stop }), ...(press && { press }) };
      const row = rowOf(now + pause, budget, { ...rest, errors });
      now = row.times.end;
      return row;
    });
  });
