import { analyze } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";
import { mergeTallies, readTally, tally } from "aimed-movement/tally";

/** The mean latency of twelve simulated people, from few and from many rows each: intervals over rows shrink on, those over people do not. */
export function spec(): object {
  const people = Array.from({ length: 12 }, (_, k) => {
    const mu = 0.2 + 0.05 * Math.sin(5 * k + 1);
    const rows = analyze(simulateRecording({ seed: 500 + k, movements: 400, latency: { mu } }).recording);
    return { person: `person ${k + 1}`, rows };
  });
  const values = [10, 25, 50, 100, 200, 400].flatMap((n) => {
    const whole = mergeTallies(people.map(({ person, rows }) => tally(rows.slice(0, n), { by: { person } })));
    const latency = (across: string) => readTally(whole, { across, by: [] }).groups[0]!.measures.latency!;
    return [
      { n, units: "rows as units", estimate: latency("row").mean },
      { n, units: "people as units", estimate: latency("person").acrossUnits!.mean },
    ].flatMap(({ estimate, ...point }) =>
      estimate.ok && estimate.interval
        ? [{ ...point, mean: 1000 * estimate.value, low: 1000 * estimate.interval[0], high: 1000 * estimate.interval[1] }]
        : [],
    );
  });
  return {
    title: "Mean latency of 12 simulated people, 95 % intervals",
    data: { values },
    width: 420,
    height: 240,
    encoding: {
      x: { field: "n", type: "ordinal", title: "rows of each person", axis: { labelAngle: 0 } },
      xOffset: { field: "units", type: "nominal", sort: null },
      color: { field: "units", type: "nominal", title: null, sort: null },
    },
    layer: [
      {
        mark: { type: "rule", strokeWidth: 2 },
        encoding: { y: { field: "low", type: "quantitative", title: "ms", scale: { zero: false } }, y2: { field: "high" } },
      },
      {
        mark: { type: "point", size: 40 },
        encoding: { y: { field: "mean", type: "quantitative" }, shape: { field: "units", type: "nominal", title: null, sort: null } },
      },
    ],
  };
}
