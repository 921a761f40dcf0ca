import { analyze, summarize } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** What corrections did against what there was to do, for a hand that removes all of an error and one that removes two thirds. */
export function spec(): object {
  const hands = [
    { hand: "removes all of it", gains: [1] },
    { hand: "removes 65 % of it", gains: [0.65] },
  ];
  const sets = hands.map(({ hand, gains }, k) => {
    const correction = { gains, onset: [0.08, 0.2], pureShare: 0 } as const;
    const rows = analyze(simulateRecording({ seed: 31 + k, movements: 160, correction }).recording);
    const points = rows.flatMap((row) =>
      row.corrections
        .filter((c) => !c.unnecessary && c.gain !== undefined)
        .map((c) => ({ hand, error: -c.errorBefore.along!, done: c.errorAfter.along! - c.errorBefore.along! })),
    );
    const { slope, intercept } = summarize(rows).corrections.gain;
    if (!slope.ok || !intercept.ok) throw new Error("the picture needs a gain");
    const line = [-60, 60].map((error) => ({ hand, error, done: intercept.value + slope.value * error }));
    return { points: points.filter((p) => Math.abs(p.error) <= 60 && Math.abs(p.done) <= 60), line };
  });
  const x = { field: "error", type: "quantitative", title: "error found, px along the axis (positive: short of the centre)" };
  const y = { field: "done", type: "quantitative", title: "what the correction did, px" };
  return {
    title: "Corrections of two simulated hands: the slope is the corrective gain",
    width: 520,
    height: 320,
    layer: [
      {
        data: { values: sets.flatMap((set) => set.points) },
        mark: { type: "point", opacity: 0.5 },
        encoding: { x, y, color: { field: "hand", type: "nominal", title: "hand" } },
      },
      {
        data: { values: sets.flatMap((set) => set.line) },
        mark: { type: "line" },
        encoding: { x, y, color: { field: "hand", type: "nominal" } },
      },
    ],
  };
}
