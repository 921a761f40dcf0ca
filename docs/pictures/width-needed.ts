import { widthForHitRate } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Diameter that a hit rate needs, for endpoints as they are and for the same without their bias. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 9, movements: 60, targets: { amplitude: [400, 400], widths: [40] } });
  const errors = truth.movements.flatMap(({ primaryError }) => (primaryError ? [primaryError] : []));
  const x = Float64Array.from(errors, (e) => e.along);
  const y = Float64Array.from(errors, (e) => e.across);
  const mean = (column: Float64Array) => column.reduce((sum, value) => sum + value, 0) / column.length;
  const [mx, my] = [mean(x), mean(y)];
  const sets = [
    { name: "as they are", set: { x, y } },
    { name: "bias taken out", set: { x: x.map((value) => value - mx), y: y.map((value) => value - my) } },
  ];
  const rates = Array.from({ length: 25 }, (_, k) => 0.5 + 0.02 * k);
  const values = sets.flatMap(({ name, set }) =>
    rates.flatMap((rate) => {
      const { width } = widthForHitRate(set, rate, { draws: 399 });
      return width.ok ? [{ name, rate, width: width.value, low: width.interval![0], high: width.interval![1] }] : [];
    }),
  );
  return {
    title: "Target that 60 simulated endpoints call for, 95 % intervals",
    width: 560,
    height: 240,
    data: { values },
    encoding: {
      x: { field: "rate", type: "quantitative", title: "wanted hit rate", axis: { format: "%" }, scale: { domain: [0.5, 1], nice: false } },
      color: { field: "name", type: "nominal", title: null },
    },
    layer: [
      {
        mark: { type: "area", opacity: 0.15 },
        encoding: { y: { field: "low", type: "quantitative", title: "diameter, px" }, y2: { field: "high" } },
      },
      {
        mark: { type: "line" },
        encoding: { y: { field: "width", type: "quantitative" }, strokeDash: { field: "name", type: "nominal", title: null } },
      },
    ],
  };
}
