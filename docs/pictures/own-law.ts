import { fitLearningCurve } from "aimed-movement";
import { lawFromText } from "aimed-movement/formula";

/** Invented deviations of the sessions from the law, ms; their standard deviation is 15 ms. */
const NOISE = [9, -14, 21, -6, 3, -22, 12, 17, -9, -3, 26, -18, 5, 8, -27, 14, -1, 10, -16, 19, -11, 2, 23, -8, -13, 6, 15, -20];

/** Four weeks of daily sessions with a weekly rhythm: an exponential alone, and a law of one's own that knows the rhythm. */
export function spec(): object {
  const practice = NOISE.map((_, i) => i + 1);
  const value = practice.map((N, i) => 0.6 + 0.4 * Math.exp(-0.15 * (N - 1)) + 0.05 * Math.cos((2 * Math.PI * N) / 7) + NOISE[i]! / 1000);
  const law = lawFromText("a + b * exp(-c * (N - 1)) + d * cos(2 * pi * N / 7) + f * sin(2 * pi * N / 7)", {
    starts: { a: 0.7, b: 0.3, c: 0.1, d: 0, f: 0 },
  });
  const own = fitLearningCurve({ practice, value }, { law, band: 109 }).band;
  const plain = fitLearningCurve({ practice, value }, { band: 109 }).band;
  const lines = [
    ...own.map((point) => ({ ...point, law: "with a weekly rhythm" })),
    ...plain.map((point) => ({ ...point, law: "exponential alone" })),
  ].map(({ practice: session, value: time, prediction: [low, high], law: name }) => ({ session, time, low, high, law: name }));
  const x = { field: "session", type: "quantitative", title: "session (one a day)", scale: { domain: [1, 28], nice: false } };
  const color = {
    field: "law",
    type: "nominal",
    title: null,
    legend: { orient: "bottom", labelLimit: 240 },
    sort: ["with a weekly rhythm", "exponential alone"],
  };
  return {
    title: "A law of one's own: simulated sessions, two fitted laws, 95 % limits for one more session",
    width: 560,
    height: 300,
    data: { values: lines },
    layer: [
      {
        mark: { type: "area", opacity: 0.14 },
        encoding: {
          x,
          y: { field: "low", type: "quantitative", title: "movement time, s", scale: { zero: false } },
          y2: { field: "high" },
          color,
        },
      },
      { mark: { type: "line" }, encoding: { x, y: { field: "time", type: "quantitative" }, color } },
      {
        data: { values: practice.map((session, i) => ({ session, time: value[i] })) },
        mark: { type: "point", size: 40, color: "#1d232a" },
        encoding: { x, y: { field: "time", type: "quantitative" } },
      },
    ],
  };
}
