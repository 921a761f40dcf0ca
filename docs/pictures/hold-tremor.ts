import { analyze, holdTremor } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Spectrum of the holds of one session, and the band that counts as tremor. */
export function spec(): object {
  const { recording } = simulateRecording({ seed: 8, movements: 60, pause: [1.4, 1.8], tremorAmplitude: 0.3, recorder: { quantum: 0.02 } });
  const { hz, density, rms, meanHz } = holdTremor(recording, analyze(recording));
  const values = hz.flatMap((f, k) => (k === 0 ? [] : [{ hz: f, density: density[k]! }]));
  const label = rms.ok && meanHz.ok ? `band: ${rms.value.toFixed(2)} px, ${meanHz.value.toFixed(1)} Hz on average` : "";
  return {
    title: "Spectrum of the pointer at rest, 60 simulated movements with a tremor of 0.3 px",
    width: 560,
    height: 240,
    layer: [
      {
        data: { values: [{ from: 6, to: 12 }] },
        mark: { type: "rect", opacity: 0.12 },
        encoding: { x: { field: "from", type: "quantitative" }, x2: { field: "to" } },
      },
      {
        data: { values },
        mark: { type: "line", point: true },
        encoding: {
          x: { field: "hz", type: "quantitative", title: "frequency, Hz" },
          y: { field: "density", type: "quantitative", title: "density, px²/Hz", scale: { type: "log" } },
        },
      },
      {
        data: { values: [{ hz: 12.4, text: label }] },
        mark: { type: "text", align: "left", fontSize: 12 },
        encoding: { x: { field: "hz", type: "quantitative" }, y: { value: 24 }, text: { field: "text" } },
      },
    ],
  };
}
