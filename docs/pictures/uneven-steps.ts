import { differentiate } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Speed from the same uneven samples, with their own times and with a rate that was only assumed. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 52,
    movements: 1,
    sampleRateHz: 250,
    targets: { amplitude: [500, 500], widths: [40] },
    primary: { bells: ["minimumJerk"] },
    correction: { pureShare: 1 },
    recorder: { dropShare: 0.2 },
  });
  const { t, x, y } = recording.trace;
  const { onset, duration, dx, dy } = truth.movements[0]!.components[0]!;
  const speed = (options: { t: Float64Array } | { sampleRateHz: number }): number[] => {
    const [vx, vy] = [differentiate(x, options), differentiate(y, options)];
    return Array.from(vx, (v, i) => Math.sqrt(v * v + vy[i]! * vy[i]!));
  };
  const shown = (line: string, values: readonly number[]): object[] =>
    values.flatMap((value, i) => {
      const time = t[i]! - onset;
      return time > 0 && time < duration ? [{ line, time: +(1000 * time).toFixed(1), speed: Math.round(value) }] : [];
    });
  const trueSpeed = Array.from(t, (at) => {
    const s = (at - onset) / duration;
    return (Math.sqrt(dx * dx + dy * dy) / duration) * 30 * s * s * (1 - s) * (1 - s);
  });
  return {
    title: "Speed from uneven samples: 250 Hz with a fifth of the reports lost, simulated",
    width: 540,
    height: 240,
    data: {
      values: [
        ...shown("true speed", trueSpeed),
        ...shown("at their own times", speed({ t })),
        ...shown("as if 4 ms apart", speed({ sampleRateHz: 250 })),
      ],
    },
    mark: { type: "line" },
    encoding: {
      x: { field: "time", type: "quantitative", title: "time since the true onset, ms" },
      y: { field: "speed", type: "quantitative", title: "speed, px/s" },
      strokeDash: { field: "line", type: "nominal", title: null, sort: null },
      color: { field: "line", type: "nominal", title: null, sort: null },
    },
  };
}
