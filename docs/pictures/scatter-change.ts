import { anisotropyTest, compareScatters } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Two sets of simulated endpoints with their ellipses of two standard deviations. */
export function spec(): object {
  const [before, after] = [0.06, 0.035].map((alongSd, k) => {
    const { truth } = simulateRecording({
      seed: 30 + k,
      movements: 60,
      targets: { amplitude: [400, 400], widths: [40] },
      primary: { alongSd, acrossSd: 0.025, alongBias: -0.03 },
    });
    const errors = truth.movements.flatMap(({ primaryError }) => (primaryError ? [primaryError] : []));
    return { x: Float64Array.from(errors, (e) => e.along), y: Float64Array.from(errors, (e) => e.across) };
  }) as [{ x: Float64Array; y: Float64Array }, { x: Float64Array; y: Float64Array }];
  const change = compareScatters(before, after);
  if (!change.ok || !change.spread.ratio.ok) throw new Error("not given");
  const { value, interval } = change.spread.ratio;
  const panels = [
    { set: before, name: "before" },
    { set: after, name: "after" },
  ].map(({ set, name }) => {
    const test = anisotropyTest(set);
    if (!test.ok || !test.axes.ratio.ok) throw new Error("not given");
    const [low, high] = test.axes.ratio.interval!;
    return { set, name: `${name}: SD along/across ${test.axes.ratio.value.toFixed(1)} [${low.toFixed(1)}, ${high.toFixed(1)}]` };
  });
  const sd = (values: Float64Array, mean: number) => Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1));
  const mean = (values: Float64Array) => values.reduce((sum, v) => sum + v, 0) / values.length;
  const values = panels.flatMap(({ set, name }) => {
    const [mx, my] = [mean(set.x), mean(set.y)];
    const cov = set.x.reduce((sum, v, i) => sum + (v - mx) * (set.y[i]! - my), 0) / (set.x.length - 1);
    const sx = sd(set.x, mx);
    const across = cov / sx;
    const rest = Math.sqrt(Math.max(0, sd(set.y, my) ** 2 - across ** 2));
    const ellipse = Array.from({ length: 73 }, (_, k) => {
      const t = (k * Math.PI) / 36;
      return { name, kind: "ellipse", k, along: mx + 2 * sx * Math.cos(t), across: my + 2 * (across * Math.cos(t) + rest * Math.sin(t)) };
    });
    return [...Array.from(set.x, (along, i) => ({ name, kind: "endpoint", along, across: set.y[i] })), ...ellipse];
  });
  return {
    title: `Simulated endpoints: SD after over before ${value.toFixed(2)} [${interval!.map((v) => v.toFixed(2)).join(", ")}]`,
    data: { values },
    facet: { column: { field: "name", type: "nominal", title: null, sort: "descending", header: { labelFontSize: 12 } } },
    spec: {
      width: 300,
      height: 180,
      encoding: {
        x: { field: "along", type: "quantitative", title: "along, px (positive: beyond)", scale: { domain: [-80, 60], nice: false } },
        y: { field: "across", type: "quantitative", title: "across, px", scale: { domain: [-42, 42], nice: false } },
      },
      layer: [
        { transform: [{ filter: "datum.kind === 'endpoint'" }], mark: { type: "point", opacity: 0.6 } },
        {
          transform: [{ filter: "datum.kind === 'ellipse'" }],
          mark: { type: "line", color: "#d1580b", strokeWidth: 2 },
          encoding: { order: { field: "k" } },
        },
      ],
    },
  };
}
