import { analyze, summarize } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Press-minus-stop intervals of an even and an uneven hand. */
export function spec(): object {
  const hands = [
    { hand: "even", delaySd: 0.02 },
    { hand: "uneven", delaySd: 0.05 },
  ];
  const sets = hands.map(({ hand, delaySd }, k) => {
    const rows = analyze(simulateRecording({ seed: 41 + k, movements: 200, press: { delay: 0.09, delaySd } }).recording);
    const { sd } = summarize(rows).stopping.afterStop;
    if (!sd.ok || sd.interval === undefined) throw new Error("the picture needs a spread");
    const [low, high] = sd.interval.map((v) => Math.round(1000 * v));
    const label = `${hand}: SD ${Math.round(1000 * sd.value)} ms (${low} to ${high})`;
    return rows.flatMap((row) => (row.pressing?.afterStop === undefined ? [] : { hand: label, ms: 1000 * row.pressing.afterStop }));
  });
  return {
    title: "First press minus stop, 200 movements of two simulated hands",
    data: { values: sets.flat() },
    width: 560,
    height: 130,
    mark: { type: "bar" },
    encoding: {
      row: { field: "hand", type: "nominal", title: null, header: { labelAngle: 0, labelAlign: "left", labelOrient: "top" } },
      x: { field: "ms", type: "quantitative", bin: { step: 10 }, title: "press minus stop, ms (negative: pressed in motion)" },
      y: { aggregate: "count", type: "quantitative", title: "movements" },
    },
  };
}
