import { judgeBlocks } from "aimed-movement";

/** Hits of 30 in the blocks of three invented days. */
const DAYS = {
  "one poor block": [29, 28, 24, 29, 27, 28],
  "two in a row": [29, 28, 27, 24, 25, 22],
  "never clean": [25, 24, 23, 24, 22, 23],
};

/** Three days of blocks against the limit, and where each was stopped. */
export function spec(): object {
  const values = Object.entries(DAYS).flatMap(([day, hits]) => {
    const blocks = hits.map((hit) => ({ trials: 30, hits: hit }));
    const stop = blocks.findIndex((_, i) => judgeBlocks(blocks.slice(0, i + 1)).stop);
    return hits.map((hit, i) => {
      const verdict = stop < 0 || i < stop ? "go on" : i === stop ? "stop or change the part" : "would have come after";
      return { day, block: i + 1, share: (100 * hit) / 30, verdict };
    });
  });
  const verdicts = ["go on", "stop or change the part", "would have come after"];
  const x = { field: "block", type: "ordinal", title: "block of 30", axis: { labelAngle: 0 } };
  const y = { field: "share", type: "quantitative", title: "first presses that hit, %", scale: { domain: [65, 100], zero: false } };
  return {
    title: "Three invented days, wanted hit share 95 %: the second block in a row below 85 % fires the rule",
    data: { values },
    facet: { column: { field: "day", type: "nominal", title: null, sort: Object.keys(DAYS) } },
    spec: {
      width: 170,
      height: 200,
      layer: [
        {
          mark: { type: "rule", color: "#6b7280", strokeDash: [4, 3] },
          encoding: { y: { datum: 85, type: "quantitative", scale: { domain: [65, 100], zero: false } } },
        },
        { mark: { type: "line", color: "#aeb6bf", strokeWidth: 1.5 }, encoding: { x, y } },
        {
          mark: { type: "point", filled: true, size: 90 },
          encoding: {
            x,
            y,
            color: {
              field: "verdict",
              type: "nominal",
              title: null,
              sort: verdicts,
              scale: { range: ["#0b6bcb", "#b02a4c", "#aeb6bf"] },
              legend: { orient: "bottom", labelLimit: 260 },
            },
            shape: {
              field: "verdict",
              type: "nominal",
              title: null,
              sort: verdicts,
              scale: { range: ["circle", "square", "triangle-up"] },
            },
          },
        },
      ],
    },
  };
}
