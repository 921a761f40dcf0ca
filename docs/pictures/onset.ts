import { kinematics, segmentMovements } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** The root of speed near rest, the line through it, and where that line meets zero beside the threshold crossing. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 4,
    movements: 1,
    sampleRateHz: 500,
    primary: { bells: ["minimumJerk"] },
    correction: { pureShare: 1 },
  });
  const movement = segmentMovements(recording.trace).movements[0]!;
  const segment = kinematics(recording.trace).segments[0]!;
  const zero = truth.movements[0]!.onset!;
  const ms = (t: number): number => 1000 * (t - zero);
  const peak = Math.sqrt(movement.peakSpeed);
  const points = Array.from(segment.speed, (v, i) => ({ time: ms(segment.t0 + i / segment.sampleRateHz), root: Math.sqrt(v) }));
  const shown = points.filter((p) => p.time > -40 && p.time < 110).map((p) => ({ time: +p.time.toFixed(1), root: +p.root.toFixed(2) }));
  const band = [Math.sqrt(0.05) * peak, Math.sqrt(0.3) * peak];
  const inBand = shown.filter((p) => p.root >= band[0]! && p.root <= band[1]!);
  const [first, last] = [inBand[0]!, inBand[inBand.length - 1]!];
  const slope = (last.root - first.root) / (last.time - first.time);
  const line = [
    { time: first.time - first.root / slope, root: 0 },
    { time: last.time + 15, root: last.root + 15 * slope },
  ];
  const marks = [
    { time: 0, what: "true onset" },
    { time: +ms(movement.onset).toFixed(1), what: "extrapolated onset" },
    { time: +ms(movement.onsetAtThreshold).toFixed(1), what: "5 % crossing" },
  ];
  return {
    title: "Onset of a simulated movement",
    width: 560,
    height: 240,
    layer: [
      {
        data: { values: [{ low: band[0], high: band[1] }] },
        mark: { type: "rect", opacity: 0.1 },
        encoding: { y: { field: "low", type: "quantitative" }, y2: { field: "high" } },
      },
      {
        data: { values: shown },
        mark: { type: "point" },
        encoding: {
          x: { field: "time", type: "quantitative", title: "time since the true onset, ms" },
          y: { field: "root", type: "quantitative", title: "square root of speed" },
        },
      },
      {
        data: { values: line },
        mark: { type: "line", color: "#d1580b" },
        encoding: { x: { field: "time", type: "quantitative" }, y: { field: "root", type: "quantitative" } },
      },
      {
        data: { values: marks },
        mark: { type: "rule" },
        encoding: { x: { field: "time", type: "quantitative" }, strokeDash: { field: "what", type: "nominal", title: null } },
      },
    ],
  };
}
