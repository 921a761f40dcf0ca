import type { FrequencyResponse } from "../../pursuit/index.js";
import { blank, type ChartSpec, chart, INK } from "./theme.js";

/** How a moving target is followed at each frequency: gain, phase, the error that both leave, and how much of the pointer's motion answers to it. */
export function pursuitChart(response: FrequencyResponse): ChartSpec {
  const { frequencies, gain, delay, segments } = response;
  const lines = frequencies.map(({ hz, gain: g, phaseDeg, coherence, chanceLevel }) => ({ hz, g, phaseDeg, coherence, chanceLevel }));
  const estimates = (key: "g" | "phaseDeg") =>
    lines.flatMap(({ hz, [key]: estimate }) =>
      estimate.ok
        ? [{ hz, value: estimate.value, low: estimate.interval?.[0] ?? estimate.value, high: estimate.interval?.[1] ?? estimate.value }]
        : [],
    );
  const known = estimates("g");
  // the rest of the error, the remnant, has no phase and comes on top
  const errors = lines.flatMap(({ hz, g, phaseDeg }) =>
    g.ok && phaseDeg.ok
      ? [{ hz, error: Math.sqrt(Math.max(0, 1 + g.value ** 2 - 2 * g.value * Math.cos((Math.PI * phaseDeg.value) / 180))) }]
      : [],
  );
  // one range of frequencies in all panels, or the eye compares what does not belong together
  const highest = lines.reduce((most, { hz }) => Math.max(most, hz), 0);
  const x = {
    field: "hz",
    type: "quantitative",
    title: "frequency of the target's motion, Hz",
    scale: { domain: [0, 1.02 * highest], nice: false },
  };
  const panel = (values: readonly object[], title: string, even: number) => ({
    width: 400,
    height: 110,
    layer: [
      { data: { values: [{}] }, mark: { type: "rule", color: INK.light, strokeDash: [4, 3] }, encoding: { y: { datum: even } } },
      {
        data: { values },
        mark: { type: "rule", color: INK.middle },
        encoding: { x, y: { field: "low", type: "quantitative", title }, y2: { field: "high" } },
      },
      {
        data: { values },
        mark: { type: "line", color: INK.dark, point: { color: INK.dark, filled: true, size: 45 } },
        encoding: { x, y: { field: "value", type: "quantitative" } },
      },
    ],
  });
  const figures = [
    gain.ok ? `gain ${gain.value.toFixed(2)}` : "gain not known",
    delay.ok ? `delay ${(1000 * delay.value).toFixed(0)} ms` : "delay not known",
  ].join(", ");
  const left = frequencies.length - known.length;
  return chart(
    "pursuit-response",
    "Following a moving target",
    `${figures}; ${segments} segments; dashed: perfect following, none, chance`,
    `Gain, phase, error and coherence at ${frequencies.length} frequencies, ${segments} segments: ${figures}.${left > 0 ? ` At ${left} frequencies coherence is no better than chance, and gain, phase and error are left out.` : ""}`,
    lines.length === 0
      ? blank("The record is too short, or the target stood still: no frequencies.")
      : {
          vconcat: [
            panel(known, "gain", 1),
            panel(estimates("phaseDeg"), "phase, degrees", 0),
            {
              width: 400,
              height: 110,
              layer: [
                { data: { values: [{}] }, mark: { type: "rule", color: INK.light, strokeDash: [4, 3] }, encoding: { y: { datum: 1 } } },
                {
                  data: { values: errors },
                  mark: { type: "line", color: INK.dark, point: { color: INK.dark, filled: true, size: 45 } },
                  encoding: { x, y: { field: "error", type: "quantitative", title: "error / target" } },
                },
              ],
            },
            {
              width: 400,
              height: 110,
              data: { values: lines.map(({ hz, coherence, chanceLevel }) => ({ hz, coherence, chance: chanceLevel })) },
              layer: [
                {
                  mark: { type: "line", color: INK.light, strokeDash: [4, 3] },
                  encoding: { x, y: { field: "chance", type: "quantitative", title: "coherence", scale: { domain: [0, 1] } } },
                },
                {
                  mark: { type: "line", color: INK.dark, point: { color: INK.dark, filled: true, size: 45 } },
                  encoding: { x, y: { field: "coherence", type: "quantitative" } },
                },
              ],
            },
          ],
        },
  );
}
