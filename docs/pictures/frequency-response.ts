import { frequencyResponse } from "aimed-movement";

const RATE = 125;
const SECONDS = 90;
const DELAY = 0.16;
const LAG = 0.06;

/** Sinusoids that no segment repeats: a target that cannot be foreseen, what a follower makes of it, and motion that has nothing to do with it. */
function waves(count: number, step: number, size: (hz: number) => number): { hz: number; size: number; turn: number }[] {
  return Array.from({ length: count }, (_, i) => {
    const hz = 0.05 + step * i;
    return { hz, size: size(hz), turn: (i * i * 2.399) % (2 * Math.PI) };
  });
}

/** Gain, phase and coherence of a simulated follower with their intervals, beside the truth. */
export function spec(): object {
  const target = waves(180, 0.0373, (hz) => 1 / (1 + hz * hz));
  const remnant = waves(211, 0.0331, () => 0.055);
  const t = Float64Array.from({ length: SECONDS * RATE }, (_, k) => k / RATE);
  const gain = (hz: number): number => 1 / Math.sqrt(1 + (2 * Math.PI * hz * LAG) ** 2);
  const phase = (hz: number): number => -2 * Math.PI * hz * DELAY - Math.atan(2 * Math.PI * hz * LAG);
  const q = t.map((s) => target.reduce((sum, w) => sum + w.size * Math.sin(2 * Math.PI * w.hz * s + w.turn), 0));
  const p = t.map((s) => {
    const answer = target.reduce((sum, w) => sum + gain(w.hz) * w.size * Math.sin(2 * Math.PI * w.hz * s + w.turn + phase(w.hz)), 0);
    return answer + remnant.reduce((sum, w) => sum + w.size * Math.sin(2 * Math.PI * w.hz * s + 1.7 * w.turn), 0);
  });
  const found = frequencyResponse(q, p, { sampleRateHz: RATE });
  const points = found.frequencies.map(({ hz, gain: g, phaseDeg, coherence, aboveChance }) => ({
    hz,
    coherence,
    kind: aboveChance ? "found, 95 % interval" : "not above chance",
    ...(g.ok ? { gain: g.value, gainLow: g.interval![0], gainHigh: g.interval![1] } : {}),
    ...(phaseDeg.ok ? { phase: phaseDeg.value, phaseLow: phaseDeg.interval![0], phaseHigh: phaseDeg.interval![1] } : {}),
  }));
  const truth = Array.from({ length: 100 }, (_, k) => {
    const hz = (k + 1) / 20;
    return { hz, gain: gain(hz), phase: (phase(hz) * 180) / Math.PI };
  });
  const x = { field: "hz", type: "quantitative", title: null, scale: { domain: [0, 5] } };
  const color = {
    type: "nominal",
    title: null,
    legend: { orient: "bottom", labelLimit: 200 },
    scale: {
      domain: ["found, 95 % interval", "not above chance", "truth", "chance level"],
      range: ["#0b6bcb", "#8a94a0", "#d1580b", "#3c7d3c"],
    },
  };
  const panel = (field: "gain" | "phase", title: string): object => ({
    width: 560,
    height: 150,
    layer: [
      {
        data: { values: truth },
        mark: { type: "line", strokeDash: [6, 4] },
        encoding: { x, y: { field, type: "quantitative", title }, color: { datum: "truth", ...color } },
      },
      {
        data: { values: points.filter((point) => field in point) },
        mark: { type: "rule" },
        encoding: {
          x,
          y: { field: `${field}Low`, type: "quantitative" },
          y2: { field: `${field}High` },
          color: { datum: "found, 95 % interval", ...color },
        },
      },
      {
        data: { values: points.filter((point) => field in point) },
        mark: { type: "point" },
        encoding: { x, y: { field, type: "quantitative" }, color: { datum: "found, 95 % interval", ...color } },
      },
    ],
  });
  return {
    title: `A simulated follower ${1000 * DELAY} ms behind with a first-order lag of ${1000 * LAG} ms, ${SECONDS} s`,
    vconcat: [
      panel("gain", "gain"),
      panel("phase", "phase, degrees"),
      {
        width: 560,
        height: 120,
        layer: [
          {
            data: { values: points },
            mark: { type: "point" },
            encoding: {
              x: { ...x, title: "frequency of the target's motion, Hz" },
              y: { field: "coherence", type: "quantitative", title: "coherence", scale: { domain: [0, 1] } },
              color: { field: "kind", ...color },
            },
          },
          {
            data: { values: [{ level: found.chanceLevel }] },
            mark: { type: "rule", strokeDash: [2, 3], strokeWidth: 2 },
            encoding: { y: { field: "level", type: "quantitative" }, color: { datum: "chance level", ...color } },
          },
        ],
      },
    ],
  };
}
