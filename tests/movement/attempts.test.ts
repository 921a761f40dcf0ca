import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { nextAttempt, type TrialProgress, type World } from "../../src/movement/acquisition/attempts.js";
import type { Press, Target, Trial } from "../../src/trace/types.js";
import { circle, press, trial } from "./hand-made.js";

/** A world in which all is known up to `known`, with the pointer in the origin unless a press says otherwise. */
function worldOf(targets: readonly Target[], presses: readonly Press[], more: Partial<World> & { known?: number } = {}): World {
  const { known = Number.POSITIVE_INFINITY, ...rest } = more;
  return {
    targets: new Map(targets.map((target) => [target.id, target])),
    presses,
    nextPress: 0,
    pointerAt: () => ({ x: 0, y: 0 }),
    shrink: () => 1,
    busyUntil: Number.NEGATIVE_INFINITY,
    lastHit: undefined,
    isKnown: (t) => t <= known,
    close: 10,
    ...rest,
  };
}
const progressOf = (entry: Trial, remaining = entry.goals): TrialProgress => ({ trial: entry, remaining });

/** All attempts of a trial, each as target, outcome, go, end and number of presses. */
function attemptsOf(entry: Trial, targets: readonly Target[], presses: readonly Press[], more: Partial<World> = {}): unknown[] {
  const told: unknown[] = [];
  let progress = progressOf(entry);
  let world = worldOf(targets, presses, { close: entry.tEnd ?? 10, ...more });
  for (;;) {
    const decision = nextAttempt(progress, world);
    if (decision === "over") return told;
    if ("waitsFor" in decision) throw new Error("nothing more is to come");
    const { attempt } = decision;
    told.push([attempt.target.id, attempt.outcome, attempt.go, attempt.end, attempt.presses.length]);
    const hit = attempt.outcome === "hit" || attempt.outcome === "recovered";
    progress = decision.next;
    world = {
      ...world,
      nextPress: decision.nextPress,
      busyUntil: attempt.end,
      lastHit: hit ? { target: attempt.target, t: attempt.end } : world.lastHit,
    };
  }
}

const here = circle("here", 0, 0, 10);
const there = circle("there", 100, 0, 10);
const far = circle("far", 0, 300, 10);
const on = (target: Target, t: number): Press => press(t, { ...(target.at as { x: number; y: number }) });
const off = (t: number, x = 50): Press => press(t, { x, y: 0 });

// Source of all: worked by hand from what happened.
describe("nextAttempt against outside values", () => {
  it("goes from the latest of shown, started and free", () => {
    const shown = [{ ...here, tShown: 2 }];
    expect(attemptsOf(trial(["here"], 1, 9), shown, [on(here, 5)])).toEqual([["here", "hit", 2, 5, 1]]);
    expect(attemptsOf(trial(["here"], 3, 9), shown, [on(here, 5)])).toEqual([["here", "hit", 3, 5, 1]]);
    expect(attemptsOf(trial(["here"], 1, 9), shown, [on(here, 5)], { busyUntil: 4 })).toEqual([["here", "hit", 4, 5, 1]]);
  });

  it("leaves out presses before go, at go, and after the trial", () => {
    const presses = [on(here, 0.5), on(here, 1), off(9.5)];
    expect(attemptsOf(trial(["here"], 1, 9), [here], presses)).toEqual([["here", "abandoned", 1, 9, 0]]);
  });

  it("leaves out presses on a target that is not there any more", () => {
    expect(attemptsOf(trial(["here"], 1, 9), [{ ...here, tGone: 3 }], [on(here, 4)])).toEqual([["here", "timeout", 1, 3, 0]]);
    expect(attemptsOf(trial(["here"], 1, 9), [{ ...here, tGone: 3 }], [on(here, 3)])).toEqual([["here", "hit", 1, 3, 1]]);
  });

  it("takes the misses before a hit along", () => {
    expect(attemptsOf(trial(["here"], 1, 9), [here], [off(2), off(3), on(here, 4)])).toEqual([["here", "recovered", 1, 4, 3]]);
  });

  it("gives a miss to the nearest goal that was there, or to the one that it made go away", () => {
    const entry = trial(["here", "there"], 1, 9);
    expect(attemptsOf(entry, [here, there], [off(2, 20)])[0]).toEqual(["here", "miss", 1, 2, 1]);
    expect(attemptsOf(entry, [here, there], [off(2, 80)])[0]).toEqual(["there", "miss", 1, 2, 1]);
    expect(attemptsOf(entry, [here, { ...there, tShown: 3 }], [off(2, 80)])[0]).toEqual(["here", "miss", 1, 2, 1]);
    expect(attemptsOf(entry, [{ ...here, tGone: 2 }, there], [off(2, 80), on(there, 4)])).toEqual([
      ["here", "miss", 1, 2, 1],
      ["there", "hit", 2, 4, 1],
    ]);
  });

  it("keeps a miss open while its goal is there, whichever goal is hit next", () => {
    expect(attemptsOf(trial(["here", "there"], 1, 9), [here, there], [off(2, 20), on(there, 4), on(here, 6)])).toEqual([
      ["there", "recovered", 1, 4, 2],
      ["here", "hit", 4, 6, 1],
    ]);
  });

  it("takes goals in the order of the presses, each once for each time it is named", () => {
    expect(attemptsOf(trial(["here", "there", "here"], 1, 9), [here, there], [on(there, 2), on(here, 4), on(here, 6)])).toEqual([
      ["there", "hit", 1, 2, 1],
      ["here", "hit", 2, 4, 1],
      ["here", "hit", 4, 6, 1],
    ]);
  });

  it("treats goals that follow one another as attempts of their own", () => {
    const one = { ...here, tShown: 1, tGone: 3 };
    const two = { ...there, tShown: 3, tGone: 5 };
    const three = { ...far, tShown: 6, tGone: 8 };
    expect(attemptsOf(trial(["here", "there", "far"], 1, 9), [one, two, three], [on(far, 7)])).toEqual([
      ["here", "timeout", 1, 3, 0],
      ["there", "timeout", 3, 5, 0],
      ["far", "hit", 6, 7, 1],
    ]);
  });

  it("counts no time twice when a goal went away while another was acquired", () => {
    expect(attemptsOf(trial(["here", "there", "far"], 1, 9), [here, { ...there, tGone: 3 }, far], [on(here, 4), on(far, 6)])).toEqual([
      ["here", "hit", 1, 4, 1],
      ["there", "timeout", 4, 4, 0],
      ["far", "hit", 4, 6, 1],
    ]);
  });

  it("ignores a second press on the target just hit, for half a second", () => {
    const entry = trial(["here", "there"], 1, 9);
    const last = { target: here, t: 2 };
    const repeat = (more: Partial<Press>, t = 2.3): unknown =>
      attemptsOf(entry, [here, there], [{ ...on(here, t), ...more }, on(there, 4)], { busyUntil: 2, lastHit: last })[0];
    const named = trial(["there"], 1, 9);
    expect(attemptsOf(named, [there], [on(here, 2.3), on(there, 4)], { busyUntil: 2, lastHit: last })).toEqual([["there", "hit", 2, 4, 1]]);
    expect(attemptsOf(named, [there], [on(here, 2.51), on(there, 4)], { busyUntil: 2, lastHit: last })).toEqual([
      ["there", "recovered", 2, 4, 2],
    ]);
    expect(attemptsOf(named, [there], [off(2.3), on(there, 4)], { busyUntil: 2, lastHit: last })).toEqual([
      ["there", "recovered", 2, 4, 2],
    ]);
    // a goal that is to be pressed again counts only when the tool says so, or when time has passed
    expect(repeat({})).toEqual(["there", "hit", 2, 4, 1]);
    expect(repeat({ credited: "here" })).toEqual(["here", "hit", 2, 2.3, 1]);
    expect(repeat({}, 2.6)).toEqual(["here", "hit", 2, 2.6, 1]);
  });

  it("judges by the credit where there is one, though not of a target that was not shown yet", () => {
    const outcome = (credited: string | null, target = here): unknown =>
      attemptsOf(trial(["here"], 1, 9), [target], [press(2, { x: 0, y: 0, credited })])[0];
    expect(outcome("here")).toEqual(["here", "hit", 1, 2, 1]);
    expect(outcome(null)).toEqual(["here", "miss", 1, 2, 1]);
    expect(outcome("there")).toEqual(["here", "miss", 1, 2, 1]);
    expect(outcome("here", { ...here, tShown: 3 })).toEqual(["here", "abandoned", 3, 9, 0]);
  });

  it("asks the samples where a press was that does not say so; where none are, it hit nothing", () => {
    const bare = { t: 2, by: "button" } as const;
    expect(attemptsOf(trial(["here"], 1, 9), [here], [bare])).toEqual([["here", "hit", 1, 2, 1]]);
    expect(attemptsOf(trial(["here"], 1, 9), [here], [bare], { pointerAt: () => undefined })).toEqual([["here", "miss", 1, 2, 1]]);
  });
});

describe("nextAttempt properties", () => {
  const ms = (min: number, max: number) => fc.integer({ min, max }).map((value) => value / 1000);
  const targetsArb = fc
    .array(fc.record({ shown: ms(0, 4000), lasts: fc.option(ms(10, 3000), { nil: undefined }), x: fc.constantFrom(0, 30, 60) }), {
      minLength: 1,
      maxLength: 4,
    })
    .map((drawn) =>
      drawn.map(({ shown, lasts, x }, i) =>
        circle(`t${i}`, x, 0, 10, { tShown: shown, ...(lasts === undefined ? {} : { tGone: shown + lasts }) }),
      ),
    );
  const pressesArb = fc
    .array(fc.record({ t: ms(0, 7000), x: fc.constantFrom(0, 3, 15, 30, 60, 200) }), { maxLength: 8 })
    .map((drawn) => drawn.map(({ t, x }) => press(t, { x, y: 0 })).sort((a, b) => a.t - b.t));

  test.prop([targetsArb, pressesArb, ms(0, 2000)])(
    "never lets attempts overlap, and ends each no earlier than it began",
    (targets, presses, tStart) => {
      const attempts = attemptsOf(
        trial(
          targets.map(({ id }) => id),
          tStart,
          8,
        ),
        targets,
        presses,
      ) as [string, string, number, number, number][];
      expect(attempts.length).toBeGreaterThan(0);
      for (const [i, [, , go, end]] of attempts.entries()) {
        expect(end).toBeGreaterThanOrEqual(go);
        expect(go).toBeGreaterThanOrEqual(Math.max(tStart, attempts[i - 1]?.[3] ?? 0));
        expect(end).toBeLessThanOrEqual(8);
      }
      // each goal once at the most, each press once at the most
      expect(new Set(attempts.map(([id]) => id)).size).toBe(attempts.length);
      expect(attempts.reduce((sum, [, , , , count]) => sum + count, 0)).toBeLessThanOrEqual(presses.length);
    },
  );

  test.prop([targetsArb, pressesArb, ms(0, 9000)])(
    "does not take back later what it decided when less was known",
    (targets, presses, known) => {
      const entry = trial(
        targets.map(({ id }) => id),
        0,
        8,
      );
      const early = nextAttempt(
        progressOf(entry),
        worldOf(
          // what lies ahead has not been told: neither targets, nor their ends, nor presses
          targets
            .filter(({ tShown }) => tShown <= known)
            .map(({ tGone, ...target }) => (tGone !== undefined && tGone <= known ? { ...target, tGone } : target)),
          presses.filter(({ t }) => t <= known),
          { known, close: known >= 8 ? 8 : undefined },
        ),
      );
      if (early !== "over" && "waitsFor" in early) return;
      expect(early).not.toBe("over");
      const late = nextAttempt(progressOf(entry), worldOf(targets, presses, { close: 8 }));
      // a target is told without its end until it has gone
      const told = (decision: typeof late): unknown =>
        !(typeof decision === "object" && "attempt" in decision)
          ? decision
          : { ...decision, attempt: { ...decision.attempt, target: decision.attempt.target.id } };
      expect(told(early)).toEqual(told(late));
    },
  );
});

describe("nextAttempt when it cannot decide", () => {
  it("waits for a press that is given and not yet known to be the last word", () => {
    expect(nextAttempt(progressOf(trial(["here"], 1, 9)), worldOf([here], [on(here, 5)], { known: 4.9 }))).toEqual({ waitsFor: 5 });
    expect(nextAttempt(progressOf(trial(["here"], 1, 9)), worldOf([here], [on(here, 5)], { known: 5 }))).toHaveProperty("attempt");
  });

  it("waits for goals that were not given yet, until the trial is over", () => {
    const entry = trial(["here"], 1, undefined);
    expect(nextAttempt(progressOf(entry), worldOf([], [], { close: undefined }))).toEqual({ waitsFor: Number.POSITIVE_INFINITY });
    expect(nextAttempt(progressOf(entry), worldOf([], [], { close: 9, known: 8 }))).toEqual({ waitsFor: 9 });
    expect(nextAttempt(progressOf(entry), worldOf([], [], { close: 9 }))).toBe("over");
  });

  it("is over when nothing remains", () => {
    expect(nextAttempt(progressOf(trial(["here"], 1, 9), []), worldOf([here], []))).toBe("over");
  });

  it("names the goal that an ended trial never showed", () => {
    expect(() => nextAttempt(progressOf(trial(["nowhere"], 1, 9)), worldOf([here], [], { close: 9 }))).toThrow(
      /createAnalyzer: trial "trial" must name targets that were shown by its end, got "nowhere"/,
    );
  });
});
