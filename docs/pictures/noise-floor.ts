import { differentiate, kinematics } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Speed of one movement by plain differences and by the chain, with the noise floor of the chain. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 12,
    movements: 1,
    sampleRateHz: 1000,
    targets: { amplitude: [300, 300], widths: [24] },
    correction: { pureShare: 0, onset: [0.05, 0.12] },
  });
  const { t, x, y } = recording.trace;
  const zero = truth.movements[0]!.onset!;
  const [begin, end] = [-0.1, truth.movements[0]!.stop! - zero + 0.1];
  const [vx, vy] = [differentiate(x, { t }), differentiate(y, { t })];
  const raw = Array.from(t, (at, i) => ({
    time: at - zero,
    speed: Math.sqrt(vx[i]! * vx[i]! + vy[i]! * vy[i]!),
    line: "plain differences",
  }));
  const { segments, noiseFloor } = kinematics(recording.trace, { sampleRateHz: 1000, quantum: 1 });
  const { t0, sampleRateHz, speed } = segments[0]!;
  const chain = Array.from(speed, (v, i) => ({ time: t0 + i / sampleRateHz - zero, speed: v, line: "kinematics" }));
  const values = [...raw, ...chain.filter((_, i) => i % 3 === 0)]
    .filter(({ time }) => time > begin && time < end)
    .map(({ time, speed: v, line }) => ({ time: +(1000 * time).toFixed(1), speed: Math.round(v), line }));
  const color = {
    field: "line",
    type: "nominal",
    title: null,
    sort: null,
    scale: { domain: ["plain differences", "kinematics", "4 noise floors"], range: ["#b8c0c9", "#0b6bcb", "#d1580b"] },
  };
  return {
    title: "Speed of a simulated movement, positions in whole pixels 1000 times a second",
    width: 560,
    height: 240,
    layer: [
      {
        data: { values },
        mark: { type: "line", strokeWidth: 1.5 },
        encoding: {
          x: { field: "time", type: "quantitative", title: "time since the true onset, ms" },
          y: { field: "speed", type: "quantitative", title: "speed, px/s" },
          color,
        },
      },
      {
        data: { values: [{ level: 4 * noiseFloor.speed, line: "4 noise floors" }] },
        mark: { type: "rule", strokeWidth: 1.5 },
        encoding: { y: { field: "level", type: "quantitative" }, color },
      },
    ],
  };
}
