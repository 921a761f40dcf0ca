import { createStaircase, staircaseThreshold, stepStaircase } from "aimed-movement";

const SESSIONS = 12;
const TRIALS = 100;

/** A simulated person whose scatter falls by a third over twelve sessions: the share of hits does not show it, the threshold does. */
export function spec(): object {
  let draw = 20261311;
  const rows = Array.from({ length: SESSIONS }, (_, s) => {
    const scatter = 8 * (1 - s / (3 * (SESSIONS - 1)));
    let state = createStaircase({ start: 60 });
    for (let i = 0; i < TRIALS; i++) {
      // a congruential generator (multiplier 16807, modulus 2^31 - 1)
      draw = (draw * 16807) % 2147483647;
      state = stepStaircase(state, draw / 2147483647 < -Math.expm1(-(state.level ** 2) / (8 * scatter ** 2)));
    }
    const { hitShare, threshold } = staircaseThreshold(state, { resamples: 0 });
    if (!hitShare.ok || !threshold.ok) throw new Error("not given");
    const ends = (interval: readonly [number, number] | undefined) => ({ low: interval![0], high: interval![1] });
    const truth = scatter * Math.sqrt(8 * Math.log(5));
    return {
      share: { session: s + 1, value: 100 * hitShare.value, low: 100 * hitShare.interval![0], high: 100 * hitShare.interval![1] },
      width: { session: s + 1, value: threshold.value, truth, ...ends(threshold.interval) },
    };
  });
  return {
    title: "Twelve simulated sessions of 100 trials; endpoint scatter falls by a third. Bars: 95 % intervals",
    hconcat: [
      panel(
        "share of hits: held by the rule",
        rows.map((row) => row.share),
        "hits, %",
        [60, 100],
      ),
      panel(
        "width for 80 % of hits: the skill (dashed: the truth)",
        rows.map((row) => row.width),
        "width, px",
        [0, 40],
      ),
    ],
  };
}

function panel(title: string, values: readonly object[], label: string, domain: readonly [number, number]): object {
  const x = {
    field: "session",
    type: "quantitative",
    title: "session",
    scale: { domain: [0, SESSIONS + 1], nice: false },
    axis: { values: [2, 4, 6, 8, 10, 12] },
  };
  const y = { type: "quantitative", title: label, scale: { domain, nice: false } };
  return {
    title,
    width: 310,
    height: 240,
    data: { values },
    layer: [
      { mark: { type: "rule", strokeWidth: 1.5 }, encoding: { x, y: { field: "low", ...y }, y2: { field: "high" } } },
      { mark: { type: "point", size: 60 }, encoding: { x, y: { field: "value", ...y } } },
      ...(label.startsWith("width")
        ? [{ mark: { type: "line", strokeDash: [5, 3], color: "#1d232a", strokeWidth: 1.5 }, encoding: { x, y: { field: "truth", ...y } } }]
        : []),
    ],
  };
}
