import { spectralArcLength } from "aimed-movement";

const RATE = 250;
/** Points that a spectrum is drawn with, per Hz. */
const FINENESS = 10;
const kinds = [
  { kind: "one stroke", onsets: [0] },
  { kind: "two strokes, joined", onsets: [0, 0.3] },
  { kind: "two strokes, 0.2 s of rest between", onsets: [0, 0.5] },
] as const;

/** Speed of minimum-jerk strokes of 0.3 s, in strokes per second. */
function speedOf(onsets: readonly number[]): Float64Array {
  const n = Math.round((onsets[onsets.length - 1]! + 0.3) * RATE) + 1;
  return Float64Array.from({ length: n }, (_, k) =>
    onsets.reduce((sum, onset) => {
      const s = (k / RATE - onset) / 0.3;
      return s > 0 && s < 1 ? sum + (30 * s * s * (1 - s) * (1 - s)) / 0.3 : sum;
    }, 0),
  );
}

function magnitudeAt(speed: Float64Array, hz: number): number {
  let re = 0;
  let im = 0;
  for (let i = 0; i < speed.length; i++) {
    re += speed[i]! * Math.cos((2 * Math.PI * hz * i) / RATE);
    im += speed[i]! * Math.sin((2 * Math.PI * hz * i) / RATE);
  }
  return Math.sqrt(re * re + im * im);
}

/** Speed profiles and the curves whose length is measured. */
export function spec(): object {
  const profiles = kinds.map(({ kind, onsets }) => {
    const speed = speedOf(onsets);
    const length = spectralArcLength(speed, { sampleRateHz: RATE });
    if (!length.ok) throw new Error("the picture needs a value");
    return { label: `${kind}: ${length.value.toFixed(2)}`, speed };
  });
  const order = profiles.map(({ label }) => label);
  const color = { field: "label", type: "nominal", title: "spectral arc length", sort: order, legend: { labelLimit: 0 } };
  return {
    title: "Speed of computed minimum-jerk strokes, and the curves of their spectra",
    hconcat: [
      {
        width: 250,
        height: 220,
        data: { values: profiles.flatMap(({ label, speed }) => [...speed].map((v, i) => ({ label, t: i / RATE, v }))) },
        mark: { type: "line" },
        encoding: {
          x: { field: "t", type: "quantitative", title: "time, s" },
          y: { field: "v", type: "quantitative", title: "speed, strokes/s" },
          color,
          strokeDash: color,
        },
      },
      {
        width: 250,
        height: 220,
        data: {
          values: profiles.flatMap(({ label, speed }) => {
            const top = magnitudeAt(speed, 0);
            const values = Array.from({ length: 8 * FINENESS + 1 }, (_, k) => magnitudeAt(speed, k / FINENESS) / top);
            // the curve ends where it last reaches 5 % of its top
            const last = values.map((v) => v >= 0.05).lastIndexOf(true);
            return values.slice(0, last + 1).map((v, k) => ({ label, hz: k / FINENESS, v }));
          }),
        },
        mark: { type: "line" },
        encoding: {
          x: { field: "hz", type: "quantitative", title: "frequency, Hz" },
          y: { field: "v", type: "quantitative", title: "magnitude over its top" },
          color,
          strokeDash: color,
        },
      },
    ],
  };
}
