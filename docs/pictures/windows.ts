import { resample, savitzkyGolay } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Acceleration along a straight movement from windows of three lengths, beside the true one. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 40,
    movements: 1,
    sampleRateHz: 500,
    targets: { amplitude: [400, 400], widths: [40] },
    primary: { bells: ["minimumJerk"] },
    correction: { pureShare: 1 },
  });
  const { onset, duration, dx, dy } = truth.movements[0]!.components[0]!;
  const length = Math.sqrt(dx * dx + dy * dy);
  const { t0, x, y, sampleRateHz } = resample(recording.trace, { sampleRateHz: 500 }).segments[0]!;
  const along = x.map((value, i) => (value * dx + y[i]! * dy) / length);
  const trueAcceleration = (t: number): number => {
    const s = (t - onset) / duration;
    return s <= 0 || s >= 1 ? 0 : (length / duration ** 2) * 60 * s * (1 - s) * (1 - 2 * s);
  };
  const row = (line: string, acceleration: (i: number) => number): object[] =>
    Array.from(x, (_, i) => ({ t: t0 + i / sampleRateHz, i }))
      .filter(({ t, i }) => i % 2 === 0 && t > onset - 0.08 && t < onset + duration + 0.08)
      .map(({ t, i }) => ({ line, time: Math.round(1000 * (t - onset)), acceleration: +(acceleration(i) / 1000).toFixed(2) }));
  const values = [0.026, 0.05, 0.1].flatMap((seconds) => {
    const window = 2 * Math.floor((seconds * sampleRateHz) / 2) + 1;
    const acceleration = savitzkyGolay(along, { window, derivative: 2, sampleRateHz });
    return row(`window ${Math.round(1000 * seconds)} ms`, (i) => acceleration[i]!);
  });
  return {
    title: `Acceleration of a movement of ${Math.round(1000 * duration)} ms from rounded positions, simulated`,
    width: 540,
    height: 240,
    data: { values: [...row("true", (i) => trueAcceleration(t0 + i / sampleRateHz)), ...values] },
    mark: { type: "line", strokeWidth: 1.5 },
    encoding: {
      x: { field: "time", type: "quantitative", title: "time since the true onset, ms" },
      y: { field: "acceleration", type: "quantitative", title: "acceleration, 1000 px/s²" },
      strokeDash: { field: "line", type: "nominal", title: null, sort: null },
      color: { field: "line", type: "nominal", title: null, sort: null },
    },
  };
}
