import { fc, test } from "@fast-check/vitest";
import { mean } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { type SimulateRecordingOptions, simulateRecording, type TrueMovement, type Truth } from "../../src/simulate/index.js";
import type { PlanningModel } from "../../src/simulate/options.js";

const plan = (planning: Partial<PlanningModel>, options: SimulateRecordingOptions = {}): Truth =>
  simulateRecording({ seed: 5, movements: 400, sampleRateHz: 60, sequence: 5, planning, ...options }).truth;
/** Standard errors between a count and a share of `n` (textbook). */
const shareOff = (count: number, n: number, share: number): number => Math.abs(count / n - share) / Math.sqrt((share * (1 - share)) / n);

function byTrial({ movements }: Truth): TrueMovement[][] {
  const groups = new Map<string, TrueMovement[]>();
  for (const movement of movements) groups.set(movement.trial, [...(groups.get(movement.trial) ?? []), movement]);
  return [...groups.values()];
}

function length(movements: readonly TrueMovement[], order: readonly number[]): number {
  let from = movements[0]!.start;
  return order.reduce((sum, i) => {
    const { centre } = movements[i]!;
    const step = Math.hypot(centre.x - from.x, centre.y - from.y);
    from = centre;
    return sum + step;
  }, 0);
}

function orders(items: readonly number[]): number[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item) => orders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]));
}

describe("simulateRecording's planning against outside values", () => {
  // Source: every order tried
  it("takes the shortest open way from where the hand rests", () => {
    for (const movements of byTrial(plan({ shortest: 1 }, { movements: 100 }))) {
      const indices = Array.from(movements.keys());
      const least = Math.min(...orders(indices).map((order) => length(movements, order)));
      expect(length(movements, indices)).toBeCloseTo(least, 6);
    }
  });

  // Source: the definition: of the targets left none is nearer
  it("takes the nearest left", () => {
    for (const movements of byTrial(plan({ nearest: 1 }))) {
      let from = movements[0]!.start;
      movements.forEach(({ centre }, i) => {
        const distance = (m: TrueMovement): number => Math.hypot(m.centre.x - from.x, m.centre.y - from.y);
        for (const later of movements.slice(i)) expect(distance(later)).toBeGreaterThanOrEqual(distance(movements[i]!) - 1e-9);
        from = centre;
      });
    }
  });

  // Source: binomial sampling error (textbook), within 4 of them
  it("mixes the ways of choosing by their shares, and draws random orders evenly", () => {
    const { sequences } = plan({ shortest: 0.5, nearest: 0.2, random: 0.2 }, { movements: 1200, sequence: 2 });
    for (const [policy, share] of [
      ["shortest", 0.5],
      ["nearest", 0.2],
      ["random", 0.2],
      ["given", 0.1],
    ] as const) {
      expect(shareOff(sequences.filter((s) => s.policy === policy).length, sequences.length, share)).toBeLessThan(4);
    }
    const random = plan({ random: 1 }, { movements: 1200, sequence: 3 }).sequences;
    for (const order of ["1,2,3", "1,3,2", "2,1,3", "2,3,1", "3,1,2", "3,2,1"]) {
      const count = random.filter((s) => s.order.map((id) => id.split("-")[2]).join() === order).length;
      expect(shareOff(count, random.length, 1 / 6)).toBeLessThan(4);
    }
  });

  // Source: the definition: the mean primary end lies pull of the way toward the competitor, less the 3 % by which every primary falls short
  it("pulls the primary's aim toward the competitor", () => {
    const truth = plan({ random: 1, pullShare: 1, pull: 0.4 }, { movements: 1000 });
    const centres = new Map(truth.movements.map((m) => [m.target, m.centre]));
    const pulled = truth.movements.filter((m) => m.pulledToward !== undefined);
    expect(pulled.length).toBeGreaterThan(300);
    const off = pulled.flatMap((m) => {
      const other = centres.get(m.pulledToward!)!;
      const aim = { x: m.centre.x + 0.4 * (other.x - m.centre.x), y: m.centre.y + 0.4 * (other.y - m.centre.y) };
      const primary = m.components[0]!;
      const way = Math.hypot(aim.x - m.start.x, aim.y - m.start.y);
      const ux = (aim.x - m.start.x) / way;
      const uy = (aim.y - m.start.y) / way;
      const missed = { x: m.start.x + primary.dx - aim.x, y: m.start.y + primary.dy - aim.y };
      return [[(missed.x * ux + missed.y * uy) / way, (missed.x * uy - missed.y * ux) / way] as const];
    });
    // standard errors of means of shares with SD 0.05 and 0.025
    expect(Math.abs(mean(off.map(([along]) => along)) + 0.03)).toBeLessThan((4 * 0.05) / Math.sqrt(off.length));
    expect(Math.abs(mean(off.map(([, across]) => across)))).toBeLessThan((4 * 0.025) / Math.sqrt(off.length));
  });

  // Source: log2(n + 1) bits: 1, 2 and 3 for 1, 3 and 7 targets (closed form)
  it("adds the stated time per bit to the first latency and to no other", () => {
    for (const [count, bits] of [
      [1, 1],
      [3, 2],
      [7, 3],
    ] as const) {
      const without = plan({}, { sequence: count, movements: 42 });
      const withIt = plan({ latencyPerBit: 0.1 }, { sequence: count, movements: 42 });
      byTrial(withIt).forEach((movements, i) => {
        movements.forEach((m, j) => {
          const before = byTrial(without)[i]![j]!;
          if (before.onset === before.go || m.onset! - m.go < 1e-9) return;
          expect(m.latency! - before.latency!).toBeCloseTo(j === 0 ? 0.1 * bits : 0, 9);
        });
      });
    }
  });
});

describe("simulateRecording's planning properties", () => {
  const models: fc.Arbitrary<Partial<PlanningModel>> = fc.record({
    shortest: fc.constantFrom(0, 0.3),
    nearest: fc.constantFrom(0, 0.3),
    random: fc.constantFrom(0, 0.4),
    overlapShare: fc.constantFrom(0, 0.5),
    pullShare: fc.constantFrom(0, 0.5),
    pull: fc.constantFrom(0, 0.5, 1),
    latencyPerBit: fc.constantFrom(0, 0.1),
    hesitationShare: fc.constantFrom(0, 0.2),
    layouts: fc.constantFrom(0, 2),
  });
  const bytes = (value: unknown): string => JSON.stringify(value, (_, v) => (v instanceof Float64Array ? Array.from(v) : v));

  test.prop([models, fc.constantFrom<number | readonly number[]>(1, 4, [2, 3, 5]), fc.boolean()])(
    "gives a sound recording of every target, and says the same twice",
    (planning, sequence, view) => {
      const options: SimulateRecordingOptions = {
        movements: 14,
        sampleRateHz: 60,
        sequence,
        planning,
        space: view ? { kind: "view", elevation: 20 } : { kind: "plane" },
      };
      const { recording, truth } = simulateRecording(options);
      expect(bytes(simulateRecording(options))).toBe(bytes({ recording, truth }));
      expect(JSON.parse(JSON.stringify(truth))).toEqual(truth);
      expect(truth.sequences.map(({ trial }) => trial)).toEqual(recording.trials.map(({ id }) => id));
      recording.trials.forEach(({ goals, id }, i) => {
        const { order } = truth.sequences[i]!;
        expect([...order].sort()).toEqual([...goals].sort());
        expect(truth.movements.filter(({ trial }) => trial === id).map(({ target }) => target)).toEqual(order);
      });
      for (let i = 1; i < recording.presses.length; i++) {
        expect(recording.presses[i]!.t).toBeGreaterThanOrEqual(recording.presses[i - 1]!.t);
      }
    },
  );

  test.prop([models, fc.integer()])("leaves single targets as they are", (planning, seed) => {
    const single = { seed, movements: 6, sampleRateHz: 60 };
    expect(bytes(simulateRecording({ ...single, planning }).recording)).toBe(bytes(simulateRecording(single).recording));
  });

  test.prop([fc.integer()])("leaves the order of the goals and its movements as they are when nothing is asked for", (seed) => {
    const given = { seed, movements: 8, sampleRateHz: 60, sequence: 4 };
    const idle = { overlapLead: [0.1, 0.2], pull: 1, hesitation: [1, 2] } as const;
    expect(bytes(simulateRecording({ ...given, planning: idle }).recording)).toBe(bytes(simulateRecording(given).recording));
  });

  it("leaves before the press as often as asked, never before the stop before", () => {
    const trials = byTrial(plan({ overlapShare: 0.3, overlapLead: [0.01, 0.03] }, { movements: 1000 }));
    const later = trials.flatMap((movements) => movements.slice(1).map((m, i) => ({ m, before: movements[i]! })));
    const early = later.filter(({ m }) => m.latency! < 0);
    // a hand still moving at the press cannot leave before: presses in motion and delays below the lead, about one in twenty
    expect(early.length / later.length).toBeGreaterThan(0.24);
    expect(early.length / later.length).toBeLessThan(0.36);
    for (const { m, before } of early) {
      expect(m.latency).toBeGreaterThanOrEqual(-0.03 - 1e-9);
      expect(m.onset).toBeGreaterThanOrEqual(before.stop!);
      expect(m.flags).toContain("beforeGo");
    }
    expect(trials.every(([first]) => first!.latency! >= 0)).toBe(true);
  });

  it("lengthens some latencies after the first, and tells which", () => {
    const trials = byTrial(plan({ hesitationShare: 0.2 }));
    const later = trials.flatMap((movements) => movements.slice(1));
    const late = later.filter(({ hesitation }) => hesitation !== undefined);
    expect(shareOff(late.length, later.length, 0.2)).toBeLessThan(4);
    for (const { latency, hesitation } of late) expect(latency).toBeGreaterThanOrEqual(hesitation! - 1e-9);
    expect(trials.every(([first]) => first!.hesitation === undefined)).toBe(true);
  });

  it("shows the same layouts again, from the same start", () => {
    const truth = plan({ layouts: 3, random: 1 }, { movements: 60, sequence: 4 });
    const trials = byTrial(truth);
    trials.forEach((movements, i) => {
      expect(truth.sequences[i]!.layout).toBe(i % 3);
      expect(movements[0]!.start.x).toBeCloseTo(1000, 6);
      const places = (some: readonly TrueMovement[]): string[] =>
        some.map(({ centre, width }) => `${centre.x} ${centre.y} ${width}`).sort();
      expect(places(movements)).toEqual(places(trials[i % 3]!));
    });
  });

  it("draws the number of targets evenly from a list", () => {
    const trials = byTrial(plan({}, { movements: 1200, sequence: [2, 4] }));
    expect(new Set(trials.slice(0, -1).map((movements) => movements.length))).toEqual(new Set([2, 4]));
    expect(shareOff(trials.filter((movements) => movements.length === 2).length, trials.length, 0.5)).toBeLessThan(4);
  });
});

describe("simulateRecording's planning bad input", () => {
  const refused = (options: unknown) => expect(() => simulateRecording(options as SimulateRecordingOptions));
  it("names the option, its range and its value", () => {
    refused({ planning: 1 }).toThrow(/options\.planning must be an object, got 1/);
    refused({ planning: { pull: 1.5 } }).toThrow(/options\.planning\.pull must be at least 0 and at most 1, got 1\.5/);
    refused({ planning: { overlapLead: [0.1, 0] } }).toThrow(/options\.planning\.overlapLead\[1\] must be finite and at least 0\.1, got 0/);
    refused({ planning: { latencyPerBit: -1 } }).toThrow(/options\.planning\.latencyPerBit must be at least 0 and at most 10, got -1/);
    refused({ planning: { layouts: 0.5 } }).toThrow(
      /options\.planning\.layouts must be a whole number at least 0 and at most 1000, got 0\.5/,
    );
    refused({ sequence: [] }).toThrow(/options\.sequence must be a whole number or an array of at least one, got an array of 0/);
    refused({ sequence: [2, 0] }).toThrow(/options\.sequence\[1\] must be a whole number finite and at least 1, got 0/);
  });
  it("refuses what does not go together", () => {
    refused({ planning: { shortest: 0.6, random: 0.6 } }).toThrow(/shortest, nearest and random must add up to at most 1, got 1\.2/);
    refused({ sequence: [3, 14], planning: { shortest: 0.5 } }).toThrow(
      /planning\.shortest must be 0 with over 13 targets in a trial, got 0\.5/,
    );
    refused({ sequence: [3], cases: { noMovement: 0.1 } }).toThrow(/noMovement must be 0 in sequences/);
  });
});
