import { compareMovementTimeModels } from "aimed-movement";

/** Invented deviations of the condition means from the law, ms; their standard deviation is 19 ms. */
const NOISE = [8, -21, 29, -5, 18, -13, -27, 4, 23, -15, 2, 34, -25, 11, -3, -19];
const NAMES: Record<string, string> = {
  "fitts shannon": "log2(A/W + 1), the true law",
  "fitts welford": "log2(A/W + 1/2)",
  "fitts fitts": "log2(2A/W)",
  "twoPart shannon": "two parts, A + W and W",
  "twoPart fitts": "two parts, A and W",
  squareRoot: "square root of A/W",
  power: "power of A and of W",
};

/** r^2 and the error of foretelling a condition left out, of every law on the same cells. */
export function spec(): object {
  const cells = [8, 16, 32, 64].flatMap((width, row) =>
    [60, 120, 240, 480].map((amplitude, column) => ({
      amplitude,
      width,
      movementTime: 0.15 + 0.13 * Math.log2(amplitude / width + 1) + NOISE[4 * row + column]! / 1000,
    })),
  );
  const values = compareMovementTimeModels(cells).models.flatMap(({ fit, worse }) => {
    const law = NAMES[fit.form === null ? fit.model : `${fit.model} ${fit.form}`]!;
    const verdict = worse ? "worse than the first" : "not told apart";
    return fit.quality === null ? [] : [{ law, verdict, r2: fit.quality.r2, error: 1000 * fit.quality.leaveOneOutError! }];
  });
  const panel = (field: string, title: string, domain: number[], axis: object): object => ({
    width: 220,
    height: 220,
    mark: { type: "point", size: 90 },
    encoding: {
      x: { field, type: "quantitative", title, scale: { domain } },
      y: { field: "law", type: "nominal", title: null, sort: null, axis },
      color: { field: "verdict", type: "nominal", title: null, sort: null, legend: { orient: "bottom", labelLimit: 260 } },
      shape: { field: "verdict", type: "nominal", title: null, sort: null, legend: { orient: "bottom", labelLimit: 260 } },
    },
  });
  return {
    title: "Laws fitted to the same 16 simulated condition means",
    data: { values },
    hconcat: [
      panel("error", "error for a condition left out, ms", [0, 80], { labelLimit: 260, grid: true }),
      panel("r2", "share of spread explained, r²", [0, 1], { labels: false, ticks: false, grid: true }),
    ],
  };
}
