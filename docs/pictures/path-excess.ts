import { analyze, summarize } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Path beyond need by phase, for three simulated people. */
export function spec(): object {
  const people = [
    { person: "scattered aim", options: { primary: { alongSd: 0.09, acrossSd: 0.05 } } },
    { person: "restless corrections", options: { correction: { gains: [1.6], toleranceShare: 0.25 } } },
    { person: "steady", options: { primary: { alongSd: 0.03, acrossSd: 0.015 } } },
  ] as const;
  const values = people.flatMap(({ person, options }, k) => {
    const { excess } = summarize(analyze(simulateRecording({ seed: 51 + k, movements: 150, ...options }).recording)).economy;
    return (["primary", "correction", "verification"] as const).map((phase, order) => {
      const mean = excess[phase];
      return { person, phase, order, px: mean.ok ? Math.max(0, mean.value) : 0 };
    });
  });
  return {
    title: "Path beyond need per acquisition, three simulated people",
    data: { values },
    width: 520,
    height: 130,
    mark: { type: "bar" },
    encoding: {
      y: { field: "person", type: "nominal", title: null },
      x: { field: "px", type: "quantitative", title: "mean path beyond need, px" },
      color: { field: "phase", type: "nominal", title: "phase", sort: ["primary", "correction", "verification"] },
      order: { field: "order", type: "quantitative" },
    },
  };
}
