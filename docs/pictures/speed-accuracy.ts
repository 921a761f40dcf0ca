import { fitSpeedAccuracy, type PaceTrials, recommendPace } from "aimed-movement";

/** Invented presses at three paces: what the endpoints scatter, and the hits that follow, counted and by both fits. */
export function spec(): object {
  const trials = presses();
  const fit = fitSpeedAccuracy(trials);
  const clean = recommendPace(fit, { wanted: 0.85 });
  if (!clean.movementTime.ok || !clean.mostProductive.movementTime.ok) throw new Error("not given");
  const errors = Array.from(trials.along, (along, i) => ({ t: trials.movementTime[i]!, along, pace: trials.pace![i]! }));
  const scatter = fit.law!.along.scatter;
  const at = (t: number): number =>
    scatter.form === "linear"
      ? scatter.floor + (scatter.slope * 400) / t
      : scatter.factor * 400 ** scatter.amplitudeExponent * t ** -scatter.timeExponent;
  const band = fit.curve.map(({ movementTime }) => ({ t: movementTime, low: -2 * at(movementTime), high: 2 * at(movementTime) }));
  const curves = fit.curve.flatMap(({ movementTime, scatter: byScatter, probit }) => [
    { t: movementTime, share: 100 * byScatter!, by: "by scatter" },
    { t: movementTime, share: 100 * probit!, by: "by hits alone" },
  ]);
  const counted = fit.paces.map(({ movementTime, hitShare }) => {
    if (!hitShare.ok) throw new Error("not given");
    return { t: movementTime, share: 100 * hitShare.value, low: 100 * hitShare.interval![0], high: 100 * hitShare.interval![1] };
  });
  const marks = [
    { t: clean.movementTime.value, share: 85, says: "85 % wanted" },
    { t: clean.mostProductive.movementTime.value, share: 100 * clean.mostProductive.hitShare!, says: "most hits a second" },
  ];
  const x = { field: "t", type: "quantitative", title: "movement time, s", scale: { domain: [0.3, 0.85] } } as const;
  const share = { field: "share", type: "quantitative", title: "presses that hit, %", scale: { domain: [45, 100] } } as const;
  return {
    title: "180 invented presses at three paces, 400 px to a circle of 40 px",
    hconcat: [
      {
        width: 300,
        height: 260,
        layer: [
          {
            data: { values: band },
            mark: { type: "area", color: "#dfe7ef", clip: true },
            encoding: {
              x,
              y: { field: "low", type: "quantitative", title: "error along, px (band: 2 SD)" },
              y2: { field: "high" },
            },
          },
          {
            data: { values: [{ y: -20 }, { y: 20 }] },
            mark: { type: "rule", strokeDash: [4, 3] },
            encoding: { y: { field: "y", type: "quantitative" } },
          },
          {
            data: { values: errors },
            mark: { type: "point", size: 18 },
            encoding: {
              x,
              y: { field: "along", type: "quantitative" },
              shape: { field: "pace", type: "nominal", title: "pace asked for, s", legend: { orient: "bottom" } },
            },
          },
        ],
      },
      {
        width: 320,
        height: 260,
        layer: [
          {
            data: { values: curves },
            mark: { type: "line" },
            encoding: { x, y: share, strokeDash: { field: "by", type: "nominal", title: null, legend: { orient: "bottom" } } },
          },
          {
            data: { values: counted },
            mark: { type: "rule" },
            encoding: { x, y: { field: "low", type: "quantitative" }, y2: { field: "high" } },
          },
          { data: { values: counted }, mark: { type: "point", size: 60, color: "#1d232a" }, encoding: { x, y: share } },
          { data: { values: marks }, mark: { type: "point", shape: "diamond", size: 110, color: "#d1580b" }, encoding: { x, y: share } },
          {
            data: { values: marks },
            mark: { type: "text", align: "left", dx: 9, dy: 11 },
            encoding: { x, y: share, text: { field: "says" } },
          },
        ],
      },
    ],
  };
}

/** Sixty presses at each of three paces; a floor of 2 px and .012 s times the speed. */
function presses(): PaceTrials {
  let state = 20;
  const uniform = (): number => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const pace = Array.from({ length: 180 }, (_, i) => [0.4, 0.55, 0.72][i % 3]!);
  const movementTime = Float64Array.from(pace, (t) => t * Math.exp(0.05 * normal()));
  return {
    movementTime,
    amplitude: new Float64Array(180).fill(400),
    width: new Float64Array(180).fill(40),
    along: movementTime.map((t) => (2 + 4.8 / t) * normal()),
    across: movementTime.map((t) => (2 + 4.8 / t) * normal()),
    pace: pace.map((t) => t.toFixed(2)),
  };
}
