import { fitMovementTime } from "aimed-movement";

/** Invented deviations of the condition means from the law, ms; their standard deviation is 29 ms. */
const NOISE = [12, -31, 44, -8, 27, -19, -41, 6, 35, -22, 3, 51, -37, 17, -5, -28];

/** Condition means about a law, with the fitted line and its limits over the measured range. */
export function spec(): object {
  const cells = [8, 16, 32, 64].flatMap((width, row) =>
    [60, 120, 240, 480].map((amplitude, column) => ({
      amplitude,
      width,
      movementTime: 0.15 + 0.13 * Math.log2(amplitude / width + 1) + NOISE[4 * row + column]! / 1000,
    })),
  );
  const lines = fitMovementTime(cells).band.map(({ predictor, value, confidence, prediction }) => ({
    difficulty: predictor,
    time: value,
    low: confidence[0],
    high: confidence[1],
    least: prediction[0],
    most: prediction[1],
  }));
  const points = cells.map((cell) => ({ difficulty: Math.log2(cell.amplitude / cell.width + 1), time: cell.movementTime }));
  const x = { field: "difficulty", type: "quantitative", title: "index of difficulty, bit", scale: { domain: [0, 7] } };
  const key = {
    type: "nominal",
    title: null,
    legend: { orient: "bottom" },
    scale: { domain: ["the law", "one more condition"], range: ["#0b6bcb", "#d1580b"] },
  };
  const area = (low: string, high: string, name: string, opacity: number): object => ({
    mark: { type: "area", opacity },
    encoding: {
      x,
      y: { field: low, type: "quantitative", title: "movement time, s", scale: { zero: true } },
      y2: { field: high },
      color: { datum: name, ...key },
    },
  });
  return {
    title: "Movement time against difficulty: simulated condition means, fitted line, 95 % limits",
    width: 560,
    height: 300,
    data: { values: lines },
    layer: [
      area("least", "most", "one more condition", 0.15),
      area("low", "high", "the law", 0.4),
      { mark: { type: "line" }, encoding: { x, y: { field: "time", type: "quantitative" } } },
      {
        data: { values: points },
        mark: { type: "point", size: 45, color: "#1d232a" },
        encoding: { x, y: { field: "time", type: "quantitative" } },
      },
    ],
  };
}
