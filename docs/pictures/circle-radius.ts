import { circularErrorProbable } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Endpoints with the circles of three estimators that are to hold nine in ten, without and with strays. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 14, movements: 80, targets: { amplitude: [400, 400], widths: [40] } });
  const clean = truth.movements.flatMap(({ primaryError }) => (primaryError ? [{ x: primaryError.along, y: primaryError.across }] : []));
  // three movements gone astray, as after a slip of the hand
  const strays = [
    { x: 95, y: -60 },
    { x: -105, y: 48 },
    { x: 70, y: 75 },
  ];
  const sets = [
    { name: "80 movements", points: clean },
    { name: "the same with three strays", points: [...clean.slice(3), ...strays] },
  ];
  const turns = Array.from({ length: 91 }, (_, k) => (k * Math.PI) / 45);
  const values = sets.flatMap(({ name, points }) => {
    const set = { x: Float64Array.from(points, (p) => p.x), y: Float64Array.from(points, (p) => p.y) };
    const circles = (["exact", "robust", "empirical"] as const).flatMap((estimator) => {
      const { radius } = circularErrorProbable(set, { share: 0.9, estimator });
      if (!radius.ok) throw new Error(radius.why);
      return turns.map((t, k) => ({ name, kind: "circle", estimator, k, x: radius.value * Math.cos(t), y: radius.value * Math.sin(t) }));
    });
    return [...points.map((p) => ({ name, kind: "endpoint", ...p })), ...circles];
  });
  return {
    title: "R90 of simulated endpoints: circle about the target's centre that is to hold nine in ten",
    data: { values },
    facet: { column: { field: "name", type: "nominal", title: null, header: { labelFontSize: 12 } } },
    spec: {
      width: 290,
      height: 230,
      encoding: {
        x: { field: "x", type: "quantitative", title: "along, px (positive: beyond)", scale: { domain: [-121, 121], nice: false } },
        y: { field: "y", type: "quantitative", title: "across, px", scale: { domain: [-96, 96], nice: false } },
      },
      layer: [
        { transform: [{ filter: "datum.kind === 'endpoint'" }], mark: { type: "point", opacity: 0.5, color: "#6b7280" } },
        {
          transform: [{ filter: "datum.kind === 'circle'" }],
          mark: { type: "line" },
          encoding: {
            order: { field: "k" },
            color: { field: "estimator", type: "nominal", title: null },
            strokeDash: { field: "estimator", type: "nominal", title: null },
          },
        },
      ],
    },
  };
}
