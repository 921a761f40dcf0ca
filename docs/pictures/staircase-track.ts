import { createStaircase, stepStaircase } from "aimed-movement";

const TRIALS = 80;
/** Four hits in five: s sqrt(8 ln 5) for an endpoint scatter of 8 px. */
const WANTED = 28.7;

/** Two tracks of one simulated person: weighted steps at 0.8, and three in a row with equal steps. */
export function spec(): object {
  return {
    title: "Two staircases of 80 trials, one simulated person (endpoint scatter 8 px, round target)",
    vconcat: [
      panel("one hit: a quarter step harder; a miss: a step easier (holds 80 % of hits)", {}),
      panel("three hits in a row: a step harder; a miss: a step easier (holds 79.4 %)", { inARow: 3 }),
    ],
    resolve: { scale: { shape: "shared" } },
  };
}

function panel(title: string, options: object): object {
  let state = createStaircase({ start: 60, ...options });
  let draw = 20261311;
  for (let i = 0; i < TRIALS; i++) {
    // a congruential generator (multiplier 16807, modulus 2^31 - 1), the same for both rules
    draw = (draw * 16807) % 2147483647;
    state = stepStaircase(state, draw / 2147483647 < -Math.expm1(-(state.level ** 2) / (8 * 64)));
  }
  const trials = state.levels.map((width, i) => ({ trial: i + 1, width, outcome: state.hits[i] === 1 ? "hit" : "miss" }));
  const reversals = state.reversals.map(({ trial, level }) => ({ trial: trial + 1, width: level, outcome: "reversal" }));
  const x = { field: "trial", type: "quantitative", title: "trial", scale: { domain: [0, TRIALS + 1], nice: false } };
  const y = {
    field: "width",
    type: "quantitative",
    title: "target width, px (log)",
    scale: { type: "log", domain: [14, 66], nice: false },
    axis: { values: [15, 20, 30, 40, 60] },
  };
  const key = {
    field: "outcome",
    type: "nominal",
    title: null,
    scale: { domain: ["hit", "miss", "reversal"], range: ["circle", "cross", "square"] },
    legend: { orient: "bottom" },
  };
  return {
    title,
    width: 640,
    height: 170,
    layer: [
      { data: { values: trials }, mark: { type: "line", interpolate: "step-after", strokeWidth: 1, color: "#8a94a0" }, encoding: { x, y } },
      {
        data: { values: [{ width: WANTED }] },
        mark: { type: "rule", strokeDash: [5, 3], color: "#1d232a" },
        encoding: { y },
      },
      {
        data: { values: reversals },
        mark: { type: "point", filled: false, size: 150, strokeWidth: 1.2, color: "#6b7280" },
        encoding: { x, y, shape: key },
      },
      {
        data: { values: trials.filter(({ outcome }) => outcome === "hit") },
        mark: { type: "point", size: 28, color: "#0b6bcb" },
        encoding: { x, y, shape: key },
      },
      {
        data: { values: trials.filter(({ outcome }) => outcome === "miss") },
        mark: { type: "point", size: 70, color: "#b02a4c" },
        encoding: { x, y, shape: key },
      },
    ],
  };
}
