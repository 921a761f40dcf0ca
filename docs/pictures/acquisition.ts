import { analyze, kinematics } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Speed of one acquisition with its boundaries: the picture of the whole idea. */
export function spec(): object {
  const { recording } = simulateRecording({ seed: 12, movements: 12, correction: { pureShare: 0, onset: [0.05, 0.12] } });
  const rows = analyze(recording);
  const row = rows.find((r) => r.corrections.length === 1 && r.budget.verification > 0.05)!;
  const { go, onset, primaryEnd, stop, press } = row.times as Required<typeof row.times>;
  const segment = kinematics(recording.trace).segments[0]!;
  const ms = (t: number): number => Math.round(1000 * (t - go));
  const speed = Array.from(segment.speed, (v, i) => ({ t: segment.t0 + i / segment.sampleRateHz, v }))
    .filter((p) => p.t >= go && p.t <= press + 0.1)
    .map((p) => ({ time: ms(p.t), speed: Math.round(p.v) }));
  const parts = [
    { part: "latency", from: 0, to: ms(onset) },
    { part: "primary", from: ms(onset), to: ms(primaryEnd) },
    { part: "correction", from: ms(primaryEnd), to: ms(stop) },
    { part: "verification", from: ms(stop), to: ms(press) },
  ];
  const high = Math.max(...speed.map((p) => p.speed));
  return {
    title: "One simulated acquisition: where its time went",
    width: 620,
    height: 240,
    layer: [
      {
        data: { values: parts },
        mark: { type: "rect", opacity: 0.16 },
        encoding: {
          x: { field: "from", type: "quantitative", title: "time since the target was shown, ms" },
          x2: { field: "to" },
          color: { field: "part", type: "nominal", legend: null },
        },
      },
      {
        data: { values: parts.map((p) => ({ ...p, middle: (p.from + p.to) / 2, label: `${p.part} ${p.to - p.from} ms` })) },
        mark: { type: "text", angle: 270, align: "right", baseline: "middle", fontSize: 12 },
        encoding: {
          x: { field: "middle", type: "quantitative" },
          y: { datum: 1.5 * high, scale: { domain: [0, 1.5 * high], nice: false } },
          text: { field: "label" },
        },
      },
      {
        data: { values: speed },
        mark: { type: "line" },
        encoding: { x: { field: "time", type: "quantitative" }, y: { field: "speed", type: "quantitative", title: "speed, px/s" } },
      },
    ],
  };
}
