import { indexOfDifficulty, type TargetWidthOptions, targetWidth } from "aimed-movement";

/** Difficulty of one key by the direction it is approached from, under each rule that yields a length. */
export function spec(): object {
  const rules: readonly [string, TargetWidthOptions][] = [
    ["smaller side", { rule: "smaller" }],
    ["euclidean", { rule: "euclidean" }],
    ["euclidean, height weighs 1/7", { rule: "euclidean", heightWeight: 1 / 7 }],
    ["along the approach", { rule: "along" }],
    ["width", { rule: "width" }],
    ["sum of sides", { rule: "sum" }],
  ];
  const values = rules.flatMap(([rule, options]) =>
    Array.from({ length: 91 }, (_, i) => {
      const approach = (2 * i * Math.PI) / 180;
      return {
        rule,
        angle: 2 * i,
        index: indexOfDifficulty(300, targetWidth({ kind: "rect", width: 60, height: 20 }, { ...options, approach })),
      };
    }),
  );
  return {
    title: "Difficulty of a key 60 wide and 20 high, 300 away, computed",
    width: 560,
    height: 280,
    data: { values },
    mark: { type: "line" },
    encoding: {
      x: {
        field: "angle",
        type: "quantitative",
        title: "direction of travel, degrees (0: to the right, 90: downward)",
        scale: { domain: [0, 180] },
        axis: { values: [0, 45, 90, 135, 180] },
      },
      y: { field: "index", type: "quantitative", title: "index, bit (Shannon)", scale: { domain: [2, 4.5] } },
      color: { field: "rule", type: "nominal", title: null, sort: null, legend: { labelLimit: 260 } },
      strokeDash: { field: "rule", type: "nominal", title: null, sort: null, legend: { labelLimit: 260 } },
    },
  };
}
