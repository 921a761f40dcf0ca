import { fitPsychometric } from "aimed-movement";

/** Left: a fit with its band and the width for four hits in five. Right: hits and misses that do not overlap, where only a range is known. */
export function spec(): object {
  return {
    title: "Invented shares of hits by target width. Band: 95 %; thick bar: widths that may give 80 %",
    hconcat: [
      panel("7 widths, 20 trials each", {
        levels: [10, 14, 19, 26, 36, 50, 70],
        trials: [20, 20, 20, 20, 20, 20, 20],
        hits: [2, 3, 8, 12, 18, 19, 20],
      }),
      panel("6 widths, 10 trials each, all or nothing", {
        levels: [10, 14, 19, 26, 36, 50],
        trials: [10, 10, 10, 10, 10, 10],
        hits: [0, 0, 0, 10, 10, 10],
      }),
    ],
  };
}

function panel(title: string, data: { levels: number[]; trials: number[]; hits: number[] }): object {
  const { curve, levels, thresholds } = fitPsychometric(data);
  const [low, high] = thresholds[0]!.within;
  const known = thresholds[0]!.estimate;
  const x = {
    type: "quantitative",
    title: "target width, px (log)",
    scale: { type: "log", domain: [9, 80], nice: false },
    axis: { values: [10, 20, 40, 80] },
  };
  const y = {
    type: "quantitative",
    title: "hits, %",
    scale: { domain: [0, 104], nice: false },
    axis: { values: [0, 20, 40, 60, 80, 100] },
  };
  const points = curve.map(({ level, share, low: least, high: most }) => ({
    level,
    share: 100 * share,
    least: least === null ? null : 100 * least,
    most: most === null ? null : 100 * most,
  }));
  return {
    title,
    width: 320,
    height: 260,
    layer: [
      ...(known.ok
        ? [
            {
              data: { values: points },
              mark: { type: "area", opacity: 0.2 },
              encoding: { x: { field: "level", ...x }, y: { field: "least", ...y }, y2: { field: "most" } },
            },
            { data: { values: points }, mark: { type: "line" }, encoding: { x: { field: "level", ...x }, y: { field: "share", ...y } } },
            {
              data: { values: [{ level: known.value, share: 80 }] },
              mark: { type: "point", shape: "diamond", size: 130, color: "#d1580b" },
              encoding: { x: { field: "level", ...x }, y: { field: "share", ...y } },
            },
          ]
        : []),
      {
        data: { values: [{ low, high, share: 80 }] },
        mark: { type: "rule", strokeWidth: 4, color: "#d1580b" },
        encoding: { x: { field: "low", ...x }, x2: { field: "high" }, y: { field: "share", ...y } },
      },
      {
        data: { values: levels.map(({ level, hits, trials }) => ({ level, share: (100 * hits) / trials })) },
        mark: { type: "point", size: 60, color: "#1d232a" },
        encoding: { x: { field: "level", ...x }, y: { field: "share", ...y } },
      },
    ],
  };
}
