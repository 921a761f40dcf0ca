import { analyze, paceTrials } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Three simulated blocks asked for at other paces: what of the time to a press is movement, and what would only dilute it. */
export function spec(): object {
  const paces = [
    { pace: "fast", slope: 0.04 },
    { pace: "middle", slope: 0.06 },
    { pace: "slow", slope: 0.085 },
  ];
  const parts = ["latency", "movement", "verification"];
  const bars = paces.flatMap(({ pace, slope }, k) => {
    const { recording } = simulateRecording({
      seed: 31 + k,
      movements: 60,
      targets: { amplitude: [400, 400], widths: [40] },
      primary: { timeSlope: slope },
    });
    const rows = analyze(recording);
    const { trials, kept } = paceTrials(rows);
    const mean = (of: (i: number) => number): number => kept.reduce((sum, _, i) => sum + of(i), 0) / kept.length;
    const budget = (i: number) => rows[kept[i]!]!.budget;
    return [
      { pace, part: "latency", seconds: mean((i) => budget(i).latency), order: 0 },
      { pace, part: "movement", seconds: mean((i) => trials.movementTime[i]!), order: 1 },
      { pace, part: "verification", seconds: mean((i) => budget(i).verification), order: 2 },
    ];
  });
  return {
    title: "Mean of 60 simulated acquisitions at each of three paces",
    width: 480,
    height: 160,
    data: { values: bars },
    layer: [
      {
        mark: { type: "bar", stroke: "white" },
        encoding: {
          y: { field: "pace", type: "nominal", title: "pace asked for", sort: ["fast", "middle", "slow"] },
          x: { field: "seconds", type: "quantitative", title: "seconds from target shown to first press" },
          color: {
            field: "part",
            type: "nominal",
            title: null,
            sort: parts,
            scale: { domain: parts, range: ["#c3ccd6", "#0b6bcb", "#7d8894"] },
            legend: { orient: "bottom" },
          },
          order: { field: "order" },
        },
      },
    ],
  };
}
