// A recording of following against the delay of the hand.
import { analyzePursuit } from "../../src/pursuit/index.js";
import type { Recording, Track } from "../../src/trace/types.js";
import { check } from "./checks.js";
import { mean } from "./statistics.js";

export function checkFollowing(recording: Recording, delay: number): void {
  const [found] = analyzePursuit(recording);
  const { lag, gain, explained, samples, error } = found!;
  const known = lag.byCorrelation.ok ? 1000 * (lag.byCorrelation.value + lag.frameLag) : Number.NaN;
  // the hand aims between the frames' places, so that the half frame which the analysis takes off is its own
  check(
    `following: lag ${known.toFixed(1)} ms, of the hand ${delay} ms (${samples.duration.toFixed(1)} s)`,
    Math.abs(known - delay) < 5,
    known,
  );
  check(`following: gain ${gain.ok ? gain.value.toFixed(3) : gain.why}, of the hand 1`, gain.ok && Math.abs(gain.value - 1) < 0.02, gain);
  check(
    `following: the target explains ${explained.ok ? (100 * explained.value).toFixed(1) : explained.why} % of the motion`,
    explained.ok && explained.value > 0.9,
    explained,
  );
  const { at } = recording.targets[0]!;
  const expected = "t" in at ? laggedError(at, delay / 1000, samples.from, samples.to) : Number.NaN;
  const rms = error.rms.ok ? error.rms.value : Number.NaN;
  check(
    `following: ${rms.toFixed(1)} px off, as a copy of the track so late is (${expected.toFixed(1)} px)`,
    Math.abs(rms / expected - 1) < 0.03,
    rms,
  );
}

/** Root mean square distance between a track and itself `delay` seconds ago. */
function laggedError({ t, x, y }: Track, delay: number, from: number, to: number): number {
  const at = (column: Float64Array, time: number): number => {
    let k = t.findIndex((later) => later >= time);
    k = Math.max(1, k);
    return column[k - 1]! + ((time - t[k - 1]!) / (t[k]! - t[k - 1]!)) * (column[k]! - column[k - 1]!);
  };
  const squares: number[] = [];
  for (let time = Math.max(from, t[0]! + delay); time < Math.min(to, t[t.length - 1]!); time += 0.01)
    squares.push((at(x, time) - at(x, time - delay)) ** 2 + (at(y, time) - at(y, time - delay)) ** 2);
  return Math.sqrt(mean(squares));
}
