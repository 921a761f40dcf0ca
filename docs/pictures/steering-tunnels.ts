import { steeringDifficulty } from "aimed-movement";

/** Three tunnels of one length and one mean width: how their index gathers on the way. */
export function spec(): object {
  const tunnels = [
    ["even, 30", 30, 30],
    ["narrowing, 50 to 10", 50, 10],
    ["widening, 10 to 50", 10, 50],
  ] as const;
  const values = tunnels.flatMap(([tunnel, first, last]) =>
    Array.from({ length: 51 }, (_, i) => {
      const way = 10 * i;
      const here = first + ((last - first) * way) / 500;
      return { tunnel, way, index: steeringDifficulty(Float64Array.of(0, way), Float64Array.of(first, here)) };
    }),
  );
  return {
    title: "Steering through 500 px of tunnel, 30 px wide on average, computed",
    width: 560,
    height: 260,
    data: { values },
    mark: { type: "line" },
    encoding: {
      x: { field: "way", type: "quantitative", title: "way, px" },
      y: { field: "index", type: "quantitative", title: "index gathered so far" },
      color: { field: "tunnel", type: "nominal", title: "width, px", sort: null },
      strokeDash: { field: "tunnel", type: "nominal", title: "width, px", sort: null },
    },
  };
}
