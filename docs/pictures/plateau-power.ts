/** Share of flat learners who are told so, in percent, by daily sessions: `npm run validation`, 1000 simulated learners each, independent sessions. */
const TOLD = {
  "SD 1 %": [4, 28, 81, 100, 100],
  "SD 2 %": [0, 2, 19, 85, 99],
  "SD 3 %": [0, 0, 3, 44, 90],
  "SD 5 %": [0, 0, 0, 4, 42],
};
const SESSIONS = [8, 14, 20, 30, 40];

/** How long it takes to be told. */
export function spec(): object {
  const values = Object.entries(TOLD).flatMap(([scatter, shares]) => shares.map((share, i) => ({ scatter, share, sessions: SESSIONS[i] })));
  const x = { field: "sessions", type: "quantitative", title: "sessions, one a day", scale: { domain: [0, 42], nice: false } };
  const y = { field: "share", type: "quantitative", title: "flat learners who are told, %", scale: { domain: [0, 100] } };
  const color = { field: "scatter", type: "nominal", title: "session SD", scale: { scheme: "viridis" } };
  return {
    title: "How often a plateau is told, by simulated learners who have stopped (worthwhile change 2 % in two weeks)",
    width: 520,
    height: 280,
    data: { values },
    layer: [
      { mark: { type: "line", strokeWidth: 2 }, encoding: { x, y, color } },
      { mark: { type: "point", filled: true, size: 50 }, encoding: { x, y, color } },
    ],
  };
}
