import { resample, type Trace } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** What lies between two samples: a rest that is kept, and a stretch that nobody knows. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 28,
    movements: 2,
    sampleRateHz: 60,
    tremorAmplitude: 0,
    targets: { amplitude: [500, 500], widths: [40] },
  });
  const { trace } = recording;
  const second = truth.movements[1]!;
  const rest = panel(trace, second.onset! - 0.3, second.onset! + 0.06, {
    title: "Silence at rest: kept",
    scale: { domain: [-1, 13], nice: false },
  });
  // the same movement with five reports taken out
  const from = trace.t.findIndex((t) => t > second.onset! + 0.1);
  const column = (values: Float64Array): Float64Array => values.filter((_, i) => i < from || i >= from + 5);
  const lossy = { t: column(trace.t), x: column(trace.x), y: column(trace.y) };
  const missing = panel(lossy, second.onset! - 0.05, second.onset! + 0.35, {
    title: "Five reports lost: left out",
    scale: { domain: [-20, 490], nice: false },
  });
  return { hconcat: [rest, missing], bounds: "flush", spacing: 70 };

  function panel(shown: Trace, begin: number, end: number, { title, scale }: { title: string; scale: object }): object {
    const last = shown.t.findIndex((t) => t >= second.onset!) - 1;
    const start = { x: shown.x[last]!, y: shown.y[last]! };
    const way = (x: number, y: number): number => +Math.sqrt((x - start.x) ** 2 + (y - start.y) ** 2).toFixed(2);
    const inside = (t: number): boolean => t >= begin && t <= end;
    const ms = (t: number): number => +(1000 * (t - second.onset!)).toFixed(1);
    const read = Array.from(shown.t, (t, i) => ({ t, time: ms(t), way: way(shown.x[i]!, shown.y[i]!), what: "samples" }));
    const line = resample(shown, { sampleRateHz: 500, nominalRateHz: 60, quantum: 1 }).segments.flatMap(
      ({ t0, sampleRateHz, x, y }, segment) =>
        Array.from(x, (value, i) => ({
          t: t0 + i / sampleRateHz,
          time: ms(t0 + i / sampleRateHz),
          way: way(value, y[i]!),
          what: "resample",
          segment,
        })),
    );
    const straight = read
      .filter(({ t }, i) => inside(t) || inside(read[i + 1]?.t ?? t) || inside(read[i - 1]?.t ?? t))
      .map((p) => ({ ...p, what: "straight lines", segment: -1 }));
    const x = {
      field: "time",
      type: "quantitative",
      title: "ms since the true onset",
      scale: { domain: [ms(begin), ms(end)], nice: false },
    };
    const y = { field: "way", type: "quantitative", title: "px from the resting place", scale };
    const color = {
      field: "what",
      type: "nominal",
      title: null,
      scale: { domain: ["resample", "straight lines", "samples"], range: ["#0b6bcb", "#d1580b", "#333b44"] },
    };
    return {
      title,
      width: 250,
      height: 220,
      layer: [
        { data: { values: straight }, mark: { type: "line", clip: true, strokeDash: [5, 4] }, encoding: { x, y, color } },
        {
          data: { values: line.filter(({ t }) => inside(t)) },
          mark: { type: "line", clip: true },
          encoding: { x, y, color, detail: { field: "segment" } },
        },
        { data: { values: read.filter(({ t }) => inside(t)) }, mark: { type: "point", clip: true }, encoding: { x, y, color } },
      ],
    };
  }
}
