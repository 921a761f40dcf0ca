import { analyze } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";
import { mergeTallies, readTally, tally } from "aimed-movement/tally";

/** What a tally keeps of the latencies of 2000 simulated movements: counts in fixed bins, from which quantiles are read. */
export function spec(): object {
  const parts = Array.from({ length: 20 }, (_, k) => tally(analyze(simulateRecording({ seed: 300 + k, movements: 100 }).recording)));
  const whole = mergeTallies(parts);
  const { perOctave, smallest } = whole.header.bins;
  /** Lower end of a bin above 0, as the page gives it. */
  const endOf = (bin: number): number => smallest * 2 ** Math.floor((bin - 1) / perOctave) * (1 + ((bin - 1) % perOctave) / perOctave);
  // four bins to a bar, so that bars stand out from chance
  const bars = new Map<number, number>();
  for (const [bin, count] of whole.groups[0]!.measures.latency!.bins) {
    const first = 4 * Math.floor((bin - 1) / 4) + 1;
    bars.set(first, (bars.get(first) ?? 0) + count);
  }
  const bins = [...bars].flatMap(([first, count]) => {
    const [from, to] = [1000 * endOf(first), 1000 * endOf(first + 4)];
    return to > 600 || from < 60 ? [] : [{ from, to, low: 0, density: count / (to - from) }];
  });
  const quantiles = readTally(whole).groups[0]!.measures.latency!.quantiles.flatMap(({ p, estimate }) =>
    estimate.ok ? [{ at: 1000 * estimate.value, label: `${100 * p} %` }] : [],
  );
  return {
    title: "Latencies of 2000 simulated movements in 20 merged tallies, with quantiles",
    width: 620,
    height: 220,
    layer: [
      {
        data: { values: bins },
        mark: { type: "rect", stroke: "white", strokeWidth: 0.5 },
        encoding: {
          x: {
            field: "from",
            type: "quantitative",
            title: "latency, ms (four bins of the sketch to a bar; they widen with the values)",
            scale: { domain: [60, 600] },
          },
          x2: { field: "to" },
          y: { field: "low", type: "quantitative", title: "movements per ms" },
          y2: { field: "density" },
        },
      },
      {
        data: { values: quantiles },
        mark: { type: "rule", color: "#d1580b", strokeDash: [4, 3], strokeWidth: 1.5 },
        encoding: { x: { field: "at", type: "quantitative" } },
      },
      {
        data: { values: quantiles },
        mark: { type: "text", align: "left", dx: 3, baseline: "top", color: "#d1580b" },
        encoding: { x: { field: "at", type: "quantitative" }, y: { value: 0 }, text: { field: "label" } },
      },
    ],
  };
}
