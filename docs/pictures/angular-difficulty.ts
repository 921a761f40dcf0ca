import { angularDifficulty, indexOfDifficulty } from "aimed-movement";

/** How the two angular indices change with the distance to the display while lengths on it stay. */
export function spec(): object {
  const values = Array.from({ length: 76 }, (_, i) => 0.5 + i / 10).flatMap((distance) => {
    const { plain, weighted } = angularDifficulty(1, 0.1, distance);
    return [
      { index: "weighted (exponent 3, degrees)", distance, value: weighted },
      { index: "plain on angles, bit", distance, value: plain },
      { index: "plain on lengths, bit", distance, value: indexOfDifficulty(1, 0.1) },
    ];
  });
  return {
    title: "A target of 0.1 m, 1 m away on the display, seen from farther and farther, computed",
    width: 560,
    height: 260,
    data: { values },
    mark: { type: "line" },
    encoding: {
      x: { field: "distance", type: "quantitative", title: "distance to the display, m", scale: { domain: [0, 8] } },
      y: { field: "value", type: "quantitative", title: "index" },
      color: { field: "index", type: "nominal", title: null, sort: null, legend: { labelLimit: 260 } },
      strokeDash: { field: "index", type: "nominal", title: null, sort: null, legend: { labelLimit: 260 } },
    },
  };
}
