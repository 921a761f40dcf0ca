import { displayTiming } from "aimed-movement";

const HZ = 144;
const SHOWN = 300;

/** Small whole-number recipe of unevenness, so that the picture is the same on every machine. */
const wobble = (k: number): number => (((k * 7919) % 101) / 100 - 0.5) * 0.0012;

/** Intervals of two simulated displays: one steady, one whose every 23rd frame was not ready and that stood still for a moment. */
export function spec(): object {
  const all = Array.from({ length: SHOWN + 1 }, (_, k) => k / HZ + wobble(k));
  const missing = all.filter((_, k) => k % 23 !== 22 && !(k > 170 && k < 176));
  const displays = { steady: all, unsteady: missing };
  const values = Object.entries(displays).flatMap(([name, frames]) => {
    const { verdict, longFrames } = displayTiming(frames, { nominalHz: HZ });
    const share = longFrames.ok ? (100 * longFrames.value).toFixed(1) : "?";
    return frames
      .slice(1)
      .map((t, i) => ({ display: `${name}: "${verdict}", ${share} % long`, time: t, interval: 1000 * (t - frames[i]!) }));
  });
  return {
    title: `Time from frame to frame, two simulated displays of ${HZ} Hz, ${SHOWN} intervals and fewer`,
    data: { values },
    facet: { row: { field: "display", type: "nominal", title: null, header: { labelAngle: 0, labelAlign: "left", labelOrient: "top" } } },
    spec: {
      width: 520,
      height: 110,
      layer: [
        {
          mark: { type: "point", filled: true, size: 14 },
          encoding: {
            x: { field: "time", type: "quantitative", title: "time, s" },
            y: { field: "interval", type: "quantitative", title: "interval, ms" },
          },
        },
        {
          mark: { type: "rule", strokeDash: [5, 4], color: "#6b7280" },
          encoding: { y: { datum: 1500 / HZ, type: "quantitative" } },
        },
      ],
    },
  };
}
