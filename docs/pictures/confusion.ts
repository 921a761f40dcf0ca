// Shares of people, as the validation study gave them with the seeds of the guide (100 people a line); typed in, since the study takes many minutes.
const SAID = ["primary", "correction", "stop and press", "next target", "none", "equipment", "sampling", "pace", "tiredness"] as const;
const TABLES: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>> = {
  "against a group of 40": {
    nothing: [1, 1, 2, 2, 90, 0, 0, 2, 2],
    "scattered primary": [89, 2, 0, 0, 7, 0, 0, 0, 2],
    "slow primary": [95, 0, 0, 0, 4, 0, 0, 1, 0],
    "late corrections": [0, 88, 1, 0, 10, 0, 0, 1, 0],
    "slow press": [3, 1, 91, 0, 5, 0, 0, 0, 0],
    "slow to leave": [1, 0, 1, 97, 1, 0, 0, 0, 0],
    "slow display": [2, 2, 0, 0, 0, 96, 0, 0, 0],
    "sparse sampling": [0, 0, 0, 0, 0, 0, 100, 0, 0],
    "another pace": [1, 0, 2, 1, 2, 0, 0, 94, 0],
    tired: [4, 1, 3, 2, 2, 0, 0, 2, 86],
  },
  "against an earlier period": {
    nothing: [0, 2, 0, 2, 93, 0, 0, 0, 3],
    "scattered primary": [100, 0, 0, 0, 0, 0, 0, 0, 0],
    "slow primary": [98, 0, 0, 0, 0, 0, 0, 2, 0],
    "late corrections": [0, 96, 0, 0, 2, 0, 0, 0, 2],
    "slow press": [0, 0, 100, 0, 0, 0, 0, 0, 0],
    "slow to leave": [0, 0, 0, 100, 0, 0, 0, 0, 0],
    "slow display": [0, 0, 0, 0, 3, 97, 0, 0, 0],
    "sparse sampling": [0, 0, 0, 0, 0, 0, 100, 0, 0],
    "another pace": [0, 0, 0, 0, 1, 0, 0, 99, 0],
    tired: [2, 0, 0, 2, 14, 0, 0, 0, 82],
  },
};

/** Of the people with each planted thing, the share of whom each was said. */
export function spec(): object {
  const values = Object.entries(TABLES).flatMap(([reference, lines]) =>
    Object.entries(lines).flatMap(([planted, shares]) =>
      shares.map((share, i) => ({ reference, planted, said: SAID[i], share, text: share === 0 ? "" : `${share}` })),
    ),
  );
  const x = { field: "said", type: "nominal", title: "said", sort: [...SAID], axis: { labelAngle: -40 } } as const;
  const y = { field: "planted", type: "nominal", title: "planted", sort: null } as const;
  return {
    title: "Simulated people, six sessions each: planted and said, % of 100 people a line",
    data: { values },
    facet: { column: { field: "reference", type: "nominal", title: null, sort: null } },
    spec: {
      width: 300,
      height: 270,
      encoding: { x, y },
      layer: [
        {
          mark: { type: "rect", stroke: "white" },
          encoding: {
            color: { field: "share", type: "quantitative", title: "%", scale: { range: ["#f4f5f7", "#1d232a"], domain: [0, 100] } },
          },
        },
        {
          mark: { type: "text", fontSize: 11 },
          encoding: { text: { field: "text" }, color: { condition: { test: "datum.share > 45", value: "white" }, value: "#1d232a" } },
        },
      ],
    },
  };
}
