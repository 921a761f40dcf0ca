import { differentiate, lowpass, resample } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** One fast movement behind filters of three cutoffs, beside its true speed. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 40,
    movements: 1,
    sampleRateHz: 1000,
    tremorAmplitude: 0,
    targets: { amplitude: [400, 400], widths: [100] },
    primary: { bells: ["minimumJerk"], timeIntercept: 0.04 },
    correction: { pureShare: 1 },
  });
  const { onset, duration, dx, dy } = truth.movements[0]!.components[0]!;
  const { t0, x, y, sampleRateHz } = resample(recording.trace, { sampleRateHz: 1000 }).segments[0]!;
  const trueSpeed = (t: number): number => {
    const s = (t - onset) / duration;
    return s <= 0 || s >= 1 ? 0 : (Math.sqrt(dx * dx + dy * dy) / duration) * 30 * s * s * (1 - s) * (1 - s);
  };
  const speeds = (cutoffHz: number): number[] => {
    const [vx, vy] = [x, y].map((series) => differentiate(lowpass(series, { sampleRateHz, cutoffHz }), { sampleRateHz })) as [
      Float64Array,
      Float64Array,
    ];
    return Array.from(vx, (v, i) => Math.sqrt(v * v + vy[i]! * vy[i]!));
  };
  const row = (line: string, speed: (i: number) => number): object[] =>
    Array.from(x, (_, i) => ({ t: t0 + i / sampleRateHz, i }))
      .filter(({ t, i }) => i % 3 === 0 && t > onset - 0.1 && t < onset + duration + 0.1)
      .map(({ t, i }) => ({ line, time: Math.round(1000 * (t - onset)), speed: Math.round(speed(i)) }));
  const values = [20, 10, 7].flatMap((cutoff) => {
    const speed = speeds(cutoff);
    return row(`cutoff ${cutoff} Hz`, (i) => speed[i]!);
  });
  return {
    title: `A movement of ${Math.round(1000 * duration)} ms behind the filter, simulated`,
    width: 540,
    height: 240,
    data: { values: [...row("true speed", (i) => trueSpeed(t0 + i / sampleRateHz)), ...values] },
    mark: { type: "line" },
    encoding: {
      x: { field: "time", type: "quantitative", title: "time since the true onset, ms" },
      y: { field: "speed", type: "quantitative", title: "speed, px/s" },
      strokeDash: { field: "line", type: "nominal", title: null, sort: null },
      color: { field: "line", type: "nominal", title: null, sort: null },
    },
  };
}
