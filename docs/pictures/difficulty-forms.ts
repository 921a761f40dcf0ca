import { indexOfDifficulty } from "aimed-movement";

/** The four forms of the index against the ratio of amplitude to width. */
export function spec(): object {
  const forms = [
    ["shannon", "Shannon"],
    ["fitts", "Fitts"],
    ["welford", "Welford"],
    ["squareRoot", "square root (no unit)"],
  ] as const;
  const ratios = Array.from({ length: 81 }, (_, i) => 2 ** (-2 + i / 10));
  const values = forms.flatMap(([form, name]) =>
    ratios.map((ratio) => ({ name, ratio, index: indexOfDifficulty(ratio, 1, { form }) })).filter(({ index }) => index <= 7),
  );
  return {
    title: "Forms of the index of difficulty, computed",
    width: 560,
    height: 280,
    data: { values },
    layer: [
      { data: { values: [{}] }, mark: { type: "rule", color: "#8a94a0" }, encoding: { y: { datum: 0, type: "quantitative" } } },
      {
        mark: { type: "line" },
        encoding: {
          x: {
            field: "ratio",
            type: "quantitative",
            title: "amplitude over width",
            scale: { type: "log", base: 2, domain: [0.25, 64], nice: false },
            axis: { values: [0.25, 0.5, 1, 2, 4, 8, 16, 32, 64], format: "~g" },
          },
          y: { field: "index", type: "quantitative", title: "index, bit" },
          color: { field: "name", type: "nominal", title: null, sort: null, legend: { labelLimit: 260 } },
          strokeDash: { field: "name", type: "nominal", title: null, sort: null, legend: { labelLimit: 260 } },
        },
      },
    ],
  };
}
