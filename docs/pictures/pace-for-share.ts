import { recommendPace, type SpeedAccuracyLaw } from "aimed-movement";

/** Pace against the wanted share for three target widths, and hits per second against pace, of a stated law. */
export function spec(): object {
  const axis = { scatter: { form: "linear", floor: 2, slope: 0.012 } } as const;
  const law: SpeedAccuracyLaw = { along: axis, across: axis };
  const shares = Array.from({ length: 50 }, (_, k) => 0.5 + k / 100);
  const needed = [32, 40, 56].flatMap((width) =>
    shares.flatMap((wanted) => {
      const { movementTime } = recommendPace(law, { wanted, amplitude: 400, width });
      return movementTime.ok && movementTime.value <= 1.2 ? [{ wanted: 100 * wanted, t: movementTime.value, width: `${width} px` }] : [];
    }),
  );
  const rate = shares.flatMap((wanted) => {
    const { movementTime, hitsPerSecond } = recommendPace(law, { wanted, amplitude: 400, width: 40 });
    return movementTime.ok && movementTime.value <= 1 ? [{ t: movementTime.value, rate: hitsPerSecond }] : [];
  });
  const { mostProductive } = recommendPace(law, { amplitude: 400, width: 40 });
  if (!mostProductive.movementTime.ok) throw new Error("not given");
  const marks = [
    {
      t: mostProductive.movementTime.value,
      rate: mostProductive.hitsPerSecond,
      says: `${(100 * mostProductive.hitShare!).toFixed(0)} % hit`,
    },
    ...[0.85, 0.95].map((wanted) => {
      const { movementTime, hitsPerSecond } = recommendPace(law, { wanted, amplitude: 400, width: 40 });
      return { t: movementTime.ok ? movementTime.value : 0, rate: hitsPerSecond, says: `${(100 * wanted).toFixed(0)} % hit` };
    }),
  ];
  const rates = { field: "rate", type: "quantitative", title: "hits per second (0.25 s overhead)", scale: { zero: false } } as const;
  const time = { field: "t", type: "quantitative", title: "movement time, s", scale: { zero: false } } as const;
  return {
    title: "A stated law: scatter 2 px + 0.012 s x speed, 400 px away, no bias",
    hconcat: [
      {
        width: 300,
        height: 250,
        data: { values: needed },
        mark: { type: "line" },
        encoding: {
          x: { field: "wanted", type: "quantitative", title: "wanted share of hits, %", scale: { domain: [50, 100] } },
          y: { field: "t", type: "quantitative", title: "recommended movement time, s" },
          strokeDash: { field: "width", type: "nominal", title: "circle of", legend: { orient: "bottom" } },
        },
      },
      {
        width: 300,
        height: 250,
        layer: [
          { data: { values: rate }, mark: { type: "line" }, encoding: { x: time, y: rates } },
          {
            data: { values: marks },
            mark: { type: "point", shape: "diamond", size: 110, color: "#d1580b" },
            encoding: { x: time, y: rates },
          },
          {
            data: { values: marks },
            mark: { type: "text", align: "left", dx: 8, dy: -9 },
            encoding: { x: time, y: rates, text: { field: "says" } },
          },
        ],
      },
    ],
  };
}
