import { practiceRetention } from "aimed-movement";

/** Invented deviations of eight sessions, shares of the level; their standard deviation is 3 %. */
const START = [0.01, -0.04, 0.03, -0.01, 0.04, -0.02, -0.03, 0.02];
const END = [-0.03, 0.02, 0.01, -0.02, 0.04, -0.04, 0.03, -0.01];
const TEST = [0.03, -0.01, -0.04, 0.02, -0.02, 0.04, -0.03, 0.01];
/** Shares of the level that practice gained in the panel on the right; a quarter of each is lost. */
const GAINS = [0.08, 0.1, 0.12, 0.16, 0.2, 0.25, 0.3, 0.35, 0.4];

const about = (level: number, deviations: readonly number[]): number[] => deviations.map((d) => level * (1 + d));

/** Values and means of three tests, and what the percentage score makes of gains of different size. */
export function spec(): object {
  const lists = { start: about(1, START), end: about(0.7, END), retention: about(0.775, TEST) };
  const names = { start: "start", end: "end", retention: "two weeks later" };
  const values = (["start", "end", "retention"] as const).flatMap((when) => lists[when].map((time) => ({ when: names[when], time })));
  const x = { field: "when", type: "nominal", sort: Object.values(names), title: null, axis: { labelAngle: 0 } };
  const scores = GAINS.flatMap((gain) => {
    const { percentage } = practiceRetention({
      start: about(1, START),
      end: about(1 - gain, END),
      retention: about(1 - 0.75 * gain, TEST),
    });
    return percentage.ok ? [{ gain: 100 * gain, lost: percentage.value, low: percentage.interval![0], high: percentage.interval![1] }] : [];
  });
  const gained = { field: "gain", type: "quantitative", title: "gain in practice, % of the first level", scale: { domain: [0, 42] } };
  return {
    title: "Retention, on invented values of eight sessions each: levels, and the percentage lost with 95 % limits",
    hconcat: [
      {
        width: 250,
        height: 260,
        data: { values },
        layer: [
          {
            mark: { type: "point", size: 30, color: "#9aa3ad" },
            encoding: { x, y: { field: "time", type: "quantitative", title: "movement time, s", scale: { zero: false } } },
          },
          {
            mark: { type: "tick", thickness: 3, size: 44, color: "#0b6bcb" },
            encoding: { x, y: { field: "time", aggregate: "mean", type: "quantitative" } },
          },
        ],
      },
      {
        width: 250,
        height: 260,
        data: { values: scores },
        layer: [
          {
            mark: { type: "rule", color: "#0b6bcb" },
            encoding: { x: gained, y: { field: "low", type: "quantitative", title: "lost of the gain, %" }, y2: { field: "high" } },
          },
          { mark: { type: "point", size: 45, color: "#0b6bcb" }, encoding: { x: gained, y: { field: "lost", type: "quantitative" } } },
          { data: { values: [{}] }, mark: { type: "rule", strokeDash: [4, 3], color: "#6b7280" }, encoding: { y: { datum: 25 } } },
        ],
      },
    ],
  };
}
