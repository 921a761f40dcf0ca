import { detectSubmovements, kinematics, type Trace } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Speed of one stroke as a mouse reports it every 8 ms, and as it seems to a program that reads its position every 10 ms. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 74,
    movements: 1,
    sampleRateHz: 125,
    targets: { amplitude: [1000, 1000], widths: [200] },
    primary: { bells: ["minimumJerk"], timeIntercept: 0.3, timeSd: 0 },
    correction: { pureShare: 1 },
    recorder: { timeJitterSd: 0 },
  });
  const { t, x, y } = recording.trace;
  const { onset, duration } = truth.movements[0]!.components[0]!;
  const times = Float64Array.from({ length: Math.floor((t[t.length - 1]! - t[0]!) / 0.01) }, (_, k) => t[0]! + 0.001 + 0.01 * k);
  const lastReport = Array.from(times, (time) => t.filter((at) => at <= time).length - 1);
  const read = { t: times, x: Float64Array.from(lastReport, (i) => x[i]!), y: Float64Array.from(lastReport, (i) => y[i]!) };
  const curve = (line: string, trace: Trace, cutoffHz: number): { speed: object[]; peaks: object[] } => {
    const { segments, noiseFloor, quantum } = kinematics(trace, { cutoffHz, quantum: 1 });
    const point = (time: number, speed: number): object => ({ line, time: Math.round(1000 * (time - onset)), speed: Math.round(speed) });
    const shown = (time: number): boolean => time > onset - 0.03 && time < onset + duration + 0.03;
    const [segment] = segments;
    const speeds = Array.from(segment!.speed, (v, i) => ({ at: segment!.t0 + i / segment!.sampleRateHz, v }));
    const found = detectSubmovements(segment!, { noiseFloor: noiseFloor.speed, quantum }).submovements;
    return {
      speed: speeds.filter(({ at }) => shown(at)).map(({ at, v }) => point(at, v)),
      peaks: found.map(({ peak, peakSpeed }) => point(peak, peakSpeed)),
    };
  };
  const curves = [
    curve("reports every 8 ms", { t, x, y }, 20),
    curve("read every 10 ms", read, 20),
    curve("read every 10 ms, filtered at 10 Hz", read, 10),
  ];
  const color = { field: "line", type: "nominal", title: null, sort: null, legend: { labelLimit: 0, orient: "bottom" } };
  const position = {
    x: { field: "time", type: "quantitative", title: "time since the true onset, ms" },
    y: { field: "speed", type: "quantitative", title: "speed, px/s" },
  };
  return {
    title: "One simulated stroke of a mouse at 125 Hz; dots are the submovements found",
    width: 520,
    height: 240,
    layer: [
      {
        data: { values: curves.flatMap(({ speed }) => speed) },
        mark: { type: "line" },
        encoding: { ...position, color, strokeDash: { field: "line", type: "nominal", title: null, sort: null } },
      },
      { data: { values: curves.flatMap(({ peaks }) => peaks) }, mark: { type: "point", size: 70 }, encoding: { ...position, color } },
    ],
  };
}
