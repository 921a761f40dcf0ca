import { analyze, effectiveWidth, pointingTrials } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Signed deviations of simulated first presses, with nominal and effective width. */
export function spec(): object {
  const { recording } = simulateRecording({
    seed: 17,
    movements: 300,
    targets: { amplitude: [400, 400], widths: [60] },
    primary: { alongBias: -0.02, alongSd: 0.03 },
  });
  const { along } = pointingTrials(analyze(recording)).trials;
  const width = effectiveWidth(along);
  if (!width.ok) throw new Error(width.why);
  const mean = along.reduce((sum, value) => sum + value, 0) / along.length;
  const bars = [
    { name: "nominal width, about the centre", from: -30, to: 30, count: -3 },
    { name: "effective width, about the mean", from: mean - width.value / 2, to: mean + width.value / 2, count: -7 },
  ];
  const color = {
    field: "name",
    type: "nominal",
    title: null,
    sort: null,
    scale: { range: ["#333b44", "#d1580b"] },
    legend: { orient: "bottom", labelLimit: 0 },
  };
  const x = { type: "quantitative", title: "deviation along the task axis, px (positive: beyond the centre)" };
  return {
    title: "Where 300 simulated presses landed, and how wide a target would fit them",
    width: 560,
    height: 260,
    layer: [
      {
        data: { values: Array.from(along, (value) => ({ value })) },
        mark: { type: "bar", opacity: 0.5 },
        encoding: {
          x: {
            ...x,
            field: "value",
            bin: { step: 4 },
            scale: { domain: [-40, 40], nice: false },
            axis: { values: [-40, -30, -20, -10, 0, 10, 20, 30, 40] },
          },
          y: { aggregate: "count", type: "quantitative", title: "presses", axis: { values: [0, 10, 20, 30, 40, 50] } },
        },
      },
      {
        data: { values: bars },
        mark: { type: "rule", strokeWidth: 4 },
        encoding: { x: { ...x, field: "from" }, x2: { field: "to" }, y: { field: "count", type: "quantitative" }, color },
      },
      {
        data: { values: bars.flatMap(({ name, from, to }) => [from, to].map((edge) => ({ name, edge }))) },
        mark: { type: "rule", strokeDash: [4, 4] },
        encoding: { x: { ...x, field: "edge" }, color },
      },
    ],
  };
}
