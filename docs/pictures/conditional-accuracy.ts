import { conditionalAccuracy, fitSpeedAccuracy, type PaceTrials } from "aimed-movement";

/** One in five invented movements fails, takes longer and scatters twice as widely: within each pace slower trials hit less, while slower paces hit more. */
export function spec(): object {
  const trials = presses();
  const bins = conditionalAccuracy(trials).flatMap(({ pace, bins: some }) =>
    some.map(({ movementTime, hitShare }) => {
      if (!hitShare.ok) throw new Error("not given");
      return {
        pace: `asked for ${pace} s`,
        t: movementTime,
        share: 100 * hitShare.value,
        low: 100 * hitShare.interval![0],
        high: 100 * hitShare.interval![1],
      };
    }),
  );
  const paces = fitSpeedAccuracy(trials).paces.map(({ movementTime, hitShare }) => ({
    t: movementTime,
    share: hitShare.ok ? 100 * hitShare.value : 0,
  }));
  const x = { field: "t", type: "quantitative", title: "movement time, s", scale: { zero: false } } as const;
  const y = { field: "share", type: "quantitative", title: "presses that hit, %", scale: { domain: [20, 100] } } as const;
  const pace = { field: "pace", type: "nominal", title: null, legend: { orient: "bottom" } } as const;
  return {
    title: "900 invented presses: within a pace (thin, Wilson 95 %) and between paces (thick)",
    width: 480,
    height: 280,
    layer: [
      {
        data: { values: bins },
        mark: { type: "rule", opacity: 0.6 },
        encoding: { x, y: { field: "low", type: "quantitative" }, y2: { field: "high" } },
      },
      { data: { values: bins }, mark: { type: "line", strokeWidth: 1 }, encoding: { x, y, strokeDash: pace } },
      { data: { values: bins }, mark: { type: "point", size: 40 }, encoding: { x, y, shape: pace } },
      { data: { values: paces }, mark: { type: "line", strokeWidth: 4, color: "#d1580b" }, encoding: { x, y } },
      { data: { values: paces }, mark: { type: "point", size: 130, color: "#d1580b" }, encoding: { x, y } },
    ],
  };
}

function presses(): PaceTrials {
  let state = 3;
  const uniform = (): number => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const pace = Array.from({ length: 900 }, (_, i) => [0.4, 0.55, 0.75][i % 3]!);
  const failed = pace.map(() => (uniform() < 0.2 ? 1 : 0));
  const scatter = pace.map((t, i) => (2 + 4.8 / t) * (1 + failed[i]!));
  return {
    movementTime: Float64Array.from(pace, (t, i) => t * Math.exp(0.06 * normal()) * (1 + 0.3 * failed[i]!)),
    amplitude: new Float64Array(900).fill(400),
    width: new Float64Array(900).fill(40),
    along: Float64Array.from(scatter, (s) => s * normal()),
    across: Float64Array.from(scatter, (s) => s * normal()),
    pace: pace.map((t) => t.toFixed(2)),
  };
}
