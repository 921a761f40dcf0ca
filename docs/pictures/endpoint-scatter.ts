import { type Estimate, endpointScatter } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Primary endpoints of simulated movements on the target, with their mean, ellipse and bias. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 9, movements: 80, targets: { amplitude: [400, 400], widths: [40] } });
  const errors = truth.movements.flatMap(({ primaryError }) => primaryError ?? []);
  const endpoints = { x: Float64Array.from(errors, (e) => e.along), y: Float64Array.from(errors, (e) => e.across) };
  const scatter = endpointScatter(endpoints);
  if (!scatter.ok || !scatter.radial.centroid.ok || !scatter.sd.bivariate.ok) throw new Error("not given");
  const { mean, ellipse, radial, sd } = scatter;
  const [mx, my] = mean;
  const angle = ((ellipse.angle ?? 0) * Math.PI) / 180;
  const round = (kind: string, cx: number, cy: number, [a, b]: readonly [number, number]) =>
    Array.from({ length: 73 }, (_, k) => {
      const [u, v] = [a * Math.cos((k * Math.PI) / 36), b * Math.sin((k * Math.PI) / 36)];
      return { kind, k, along: cx + u * Math.cos(angle) - v * Math.sin(angle), across: cy + u * Math.sin(angle) + v * Math.cos(angle) };
    });
  const region = ellipse.axisSd.map((length) => length * (ellipse.factors.mean ?? 0)) as unknown as readonly [number, number];
  const lines = [
    ...round("target, 40 px", 0, 0, [20, 20]),
    ...round("ellipse of 95 %", mx, my, ellipse.semiAxes),
    ...round("region of the mean", mx, my, region),
    { kind: "bias", k: 0, along: 0, across: 0 },
    { kind: "bias", k: 1, along: mx, across: my },
  ];
  const kinds = ["target, 40 px", "ellipse of 95 %", "region of the mean", "bias"];
  const position = {
    x: {
      field: "along",
      type: "quantitative",
      title: "along, px (positive: beyond the centre)",
      scale: { domain: [-80, 60], nice: false },
    },
    y: { field: "across", type: "quantitative", title: "across, px (positive: left)", scale: { domain: [-40, 40], nice: false } },
  };
  return {
    title: `80 simulated endpoints: bias ${say(radial.centroid)} px, bivariate SD ${say(sd.bivariate)} px`,
    width: 525,
    height: 300,
    encoding: position,
    layer: [
      {
        data: { values: Array.from(endpoints.x, (along, i) => ({ along, across: endpoints.y[i] })) },
        mark: { type: "point", opacity: 0.5 },
      },
      {
        data: { values: lines },
        mark: { type: "line", strokeWidth: 2 },
        encoding: {
          order: { field: "k" },
          color: {
            field: "kind",
            type: "nominal",
            title: null,
            scale: { domain: kinds, range: ["#333b44", "#d1580b", "#3c7d3c", "#b02a4c"] },
          },
          strokeDash: {
            field: "kind",
            type: "nominal",
            title: null,
            scale: {
              domain: kinds,
              range: [
                [1, 0],
                [1, 0],
                [1, 0],
                [5, 3],
              ],
            },
          },
        },
      },
    ],
  };
}

function say(estimate: Estimate): string {
  return estimate.ok ? estimate.value.toFixed(1) : estimate.why;
}
