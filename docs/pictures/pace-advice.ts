import { advisePace, type PaceBlock } from "aimed-movement";

const NAMES = { slowDown: "slow down", hold: "hold", speedUp: "speed up", cannotTell: "cannot tell" } as const;

/** Twenty blocks of 60 of an invented person who begins 25 % too fast: the hits with their bounds, and the pace that the advice led to. */
export function spec(): object {
  let state = 11;
  const uniform = (): number => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const history: PaceBlock[] = [];
  let pace = 0.435;
  const rows = Array.from({ length: 20 }, (_, k) => {
    const likely = 1 - Math.exp(-((20 / (2 + 4.8 / pace)) ** 2) / 2);
    history.push({
      movementTime: new Float64Array(60).fill(pace),
      hit: Float64Array.from({ length: 60 }, () => (uniform() < likely ? 1 : 0)),
    });
    const { advice, hitShare, from, to } = advisePace(history, { wanted: 0.85 });
    if (!hitShare.ok) throw new Error("not given");
    pace = to;
    // the bounds of this block alone, or of the last two where a turn back was judged
    return {
      block: k + 1,
      from,
      share: 100 * hitShare.value,
      low: 100 * hitShare.interval![0],
      high: 100 * hitShare.interval![1],
      advice: NAMES[advice],
    };
  });
  const x = {
    field: "block",
    type: "quantitative",
    title: "block of 60 trials",
    scale: { domain: [0, 21] },
    axis: { tickCount: 10 },
  } as const;
  const shape = {
    field: "advice",
    type: "nominal",
    title: "advice",
    sort: ["slow down", "hold", "speed up"],
    legend: { orient: "bottom" },
  } as const;
  const share = { type: "quantitative", title: "hits, % (one-sided 90 %)", scale: { domain: [50, 100] } } as const;
  const time = { type: "quantitative", title: "movement time, s", scale: { domain: [0.4, 0.65] } } as const;
  return {
    title: "An invented person who begins 25 % too fast (dashed: 85 % and its true pace)",
    hconcat: [
      {
        width: 300,
        height: 250,
        layer: [
          {
            data: { values: [{ y: 85 }] },
            mark: { type: "rule", strokeDash: [4, 3] },
            encoding: { y: { field: "y", ...share } },
          },
          { data: { values: rows }, mark: { type: "rule" }, encoding: { x, y: { field: "low", ...share }, y2: { field: "high" } } },
          { data: { values: rows }, mark: { type: "point", size: 60 }, encoding: { x, y: { field: "share", ...share }, shape } },
        ],
      },
      {
        width: 300,
        height: 250,
        layer: [
          {
            data: { values: [{ y: 0.5806 }] },
            mark: { type: "rule", strokeDash: [4, 3] },
            encoding: { y: { field: "y", ...time } },
          },
          {
            data: { values: rows },
            mark: { type: "line", interpolate: "step", strokeWidth: 1 },
            encoding: { x, y: { field: "from", ...time } },
          },
          { data: { values: rows }, mark: { type: "point", size: 60 }, encoding: { x, y: { field: "from", ...time }, shape } },
        ],
      },
    ],
  };
}
