// Throughput by the standard's formula from the plan alone, against that of the recording.
import { throughput } from "../../src/fitts/index.js";
import { type analyze, pointingTrials } from "../../src/movement/index.js";
import type { Recording } from "../../src/trace/types.js";
import { check } from "./checks.js";
import type { Planned } from "./live-hand.js";
import { mean, sd } from "./statistics.js";

/** Of ISO 9241-411, recalled: effective width is this times the standard deviation, the square root of 2 pi e. */
const WIDTHS_PER_SD = 4.133;

export function checkThroughput(
  recording: Recording,
  rows: ReturnType<typeof analyze>,
  planned: readonly Planned[],
  errors: readonly { readonly amplitude: number; readonly along: number }[],
  tables: readonly string[],
): void {
  const cells = new Map<string, number[]>();
  for (const [i, { block }] of rows.entries()) cells.set(block, [...(cells.get(block) ?? []), i]);
  const each = [...cells.values()].map((at) => {
    const along = at.map((i) => errors[i]!.along);
    const width = WIDTHS_PER_SD * sd(along);
    const amplitude = mean(at.map((i) => errors[i]!.amplitude + errors[i]!.along));
    return Math.log2(amplitude / width + 1) / mean(at.map((i) => (planned[i]!.press - planned[i]!.go) / 1000));
  });
  const expected = mean(each);
  const found = throughput(pointingTrials(rows).trials).throughput;
  const value = found.ok ? found.value : Number.NaN;
  // the amplitude of a row counts from where its movement was seen to begin, a pixel or so off; times and endpoints are the same
  check(
    `throughput: ${value.toFixed(3)} bit/s, from the plan ${expected.toFixed(3)}, ${cells.size} conditions`,
    Math.abs(value / expected - 1) < 0.01,
    value,
  );
  const words = `${Number(value.toPrecision(3))} bit/s (`;
  check(
    `throughput: the page says ${words.slice(0, -2)}, too`,
    tables.some((table) => table.includes(words)),
    words,
  );
  const amplitudes = recording.trials.map(({ condition }) => condition.amplitude as number);
  // source: geometry of the chord; the hand starts from its own errors, so that only their mean is near
  const nominal = recording.trials.every((trial, i) => {
    const places = trial.goals.map((id) => recording.targets.find((target) => target.id === id)!.at as { x: number; y: number });
    return places
      .slice(1)
      .every((place, k) => Math.abs(Math.sqrt((place.x - places[k]!.x) ** 2 + (place.y - places[k]!.y) ** 2) - amplitudes[i]!) < 1e-6);
  });
  check("tapping: every target lies the condition's distance from the one before", nominal);
}
