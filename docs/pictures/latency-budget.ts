import { latencyBudget } from "aimed-movement";

const SETS = {
  "60 Hz, reports at 125 Hz, one frame queued": {
    reportHz: 125,
    transfer: 0.001,
    operatingSystem: [0.001, 0.003],
    refreshHz: 60,
    render: [0.003, 0.005, 0.01],
    queuedFrames: 1,
    pixelResponse: [0.004, 0.012],
  },
  "240 Hz, reports at 1000 Hz, none queued": {
    reportHz: 1000,
    transfer: 0.0005,
    operatingSystem: [0.0005, 0.001],
    refreshHz: 240,
    render: [0.002, 0.003, 0.004],
    queuedFrames: 0,
    pixelResponse: [0.001, 0.004],
  },
} as const;
const WORDS: Readonly<Record<string, string>> = {
  report: "1 wait for the report",
  transfer: "2 transfer",
  operatingSystem: "3 operating system",
  frameWait: "4 wait for a frame",
  render: "5 render",
  queue: "6 queued frames",
  scanOut: "7 scan-out",
  pixelResponse: "8 pixel response",
};

/** Two invented sets of equipment, stage by stage, with the interval of a single event. */
export function spec(): object {
  const budgets = Object.entries(SETS).map(([name, stages]) => ({ name, budget: latencyBudget(stages) }));
  const values = budgets.flatMap(({ name, budget }) => {
    let from = 0;
    return budget.stages.map(({ stage, mean }) => {
      const row = { name, stage: WORDS[stage], from: 1000 * from, to: 1000 * (from + mean) };
      from += mean;
      return row;
    });
  });
  const whole = budgets.map(({ name, budget }) => ({
    name,
    stage: "whole",
    low: 1000 * budget.single![0],
    high: 1000 * budget.single![1],
    mean: budget.mean.ok ? 1000 * budget.mean.value : null,
  }));
  const stages = [...Object.values(WORDS), "whole"];
  const y = { field: "stage", type: "nominal", sort: stages, title: null } as const;
  return {
    title: "From hand to eye: two invented sets of equipment",
    data: { values },
    vconcat: budgets.map(({ name }) => ({
      title: { text: name, fontSize: 12 },
      width: 480,
      height: 170,
      layer: [
        {
          data: { values: values.filter((row) => row.name === name) },
          mark: { type: "bar", height: 12 },
          encoding: {
            y,
            x: {
              field: "from",
              type: "quantitative",
              title: "time since the hand moved, mean, ms (line: 95 % of single events)",
              scale: { domain: [0, 80] },
            },
            x2: { field: "to" },
          },
        },
        {
          data: { values: whole.filter((row) => row.name === name) },
          mark: { type: "rule", strokeWidth: 2, color: "#1d232a" },
          encoding: { y, x: { field: "low", type: "quantitative" }, x2: { field: "high" } },
        },
        {
          data: { values: whole.filter((row) => row.name === name) },
          mark: { type: "point", filled: true, size: 70, color: "#1d232a" },
          encoding: { y, x: { field: "mean", type: "quantitative" } },
        },
      ],
    })),
  };
}
