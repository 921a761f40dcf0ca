import { biasTest } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Primary endpoints with the region of their mean, from a few and from many movements. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 9, movements: 80, targets: { amplitude: [400, 400], widths: [40] } });
  const errors = truth.movements.flatMap(({ primaryError }) => (primaryError ? [primaryError] : []));
  const sets = [8, 80].map((n) => {
    const some = errors.slice(0, n);
    const test = biasTest({ x: Float64Array.from(some, (e) => e.along), y: Float64Array.from(some, (e) => e.across) });
    if (!test.ok) throw new Error(test.why);
    const said = test.verdict === "biased" ? "bias shown" : "bias not shown";
    return { name: `${n} movements: ${said}`, some, test };
  });
  const turns = Array.from({ length: 73 }, (_, k) => (k * Math.PI) / 36);
  const regions = sets.flatMap(({ name, test }) => {
    const [a, b] = test.region.semiAxes;
    const angle = ((test.region.angle ?? 0) * Math.PI) / 180;
    return turns.map((t, k) => {
      const u = a * Math.cos(t);
      const v = b * Math.sin(t);
      const along = test.offset[0] + u * Math.cos(angle) - v * Math.sin(angle);
      return { name, k, along, across: test.offset[1] + u * Math.sin(angle) + v * Math.cos(angle) };
    });
  });
  const position = {
    x: { field: "along", type: "quantitative", title: "along, px (positive: beyond)", scale: { domain: [-75, 45], nice: false } },
    y: { field: "across", type: "quantitative", title: "across, px", scale: { domain: [-40, 40], nice: false } },
  };
  return {
    title: "Simulated endpoints, and where their true mean may lie (95 % region)",
    data: {
      values: [
        ...sets.flatMap(({ name, some }) => some.map((e) => ({ name, kind: "endpoint", along: e.along, across: e.across }))),
        ...regions.map((point) => ({ ...point, kind: "region" })),
        ...sets.flatMap(({ name }) =>
          turns.map((t, k) => ({ name, kind: "target", k, along: 20 * Math.cos(t), across: 20 * Math.sin(t) })),
        ),
      ],
    },
    facet: { column: { field: "name", type: "nominal", title: null, header: { labelFontSize: 12 } } },
    spec: {
      width: 300,
      height: 200,
      encoding: position,
      layer: [
        {
          transform: [{ filter: "datum.kind === 'target'" }],
          mark: { type: "line", color: "#333b44", strokeWidth: 1 },
          encoding: { order: { field: "k" } },
        },
        { transform: [{ filter: "datum.kind === 'endpoint'" }], mark: { type: "point", opacity: 0.6 } },
        {
          transform: [{ filter: "datum.kind === 'region'" }],
          mark: { type: "line", color: "#d1580b", strokeWidth: 2 },
          encoding: { order: { field: "k" } },
        },
      ],
    },
  };
}
