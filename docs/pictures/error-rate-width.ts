import { effectiveWidthFromErrorRate } from "aimed-movement";

/** Effective over nominal width against the share of misses, with the interval that 20 and 200 trials leave. */
export function spec(): object {
  const rates = Array.from({ length: 81 }, (_, i) => 0.4 * (i / 80) ** 2);
  const values = ([20, 200] as const).flatMap((trials) =>
    rates.map((rate) => {
      const { value, interval } = effectiveWidthFromErrorRate(1, rate, { trials });
      return { trials: `${trials} trials`, rate, factor: value, low: interval![0], high: interval![1] };
    }),
  );
  const x = { field: "rate", type: "quantitative", title: "share of misses", axis: { format: "%" } };
  return {
    title: "Effective width from the share of misses with its 95 % interval, computed",
    width: 560,
    height: 280,
    data: { values },
    layer: [
      {
        mark: { type: "area", opacity: 0.2 },
        encoding: {
          x,
          y: { field: "low", type: "quantitative", title: "effective over nominal width" },
          y2: { field: "high" },
          color: { field: "trials", type: "nominal", title: null, sort: null },
        },
      },
      { mark: { type: "line", color: "#333b44" }, encoding: { x, y: { field: "factor", type: "quantitative" } } },
      {
        data: { values: [{}] },
        mark: { type: "rule", color: "#8a94a0", strokeDash: [4, 4] },
        encoding: { y: { datum: 1, type: "quantitative" } },
      },
    ],
  };
}
