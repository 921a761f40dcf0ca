import { scatterOutliers } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Endpoints among which some went to a wrong place, with both cutoffs. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 12, movements: 40, targets: { amplitude: [400, 400], widths: [40] } });
  const errors = truth.movements.flatMap(({ primaryError }) => primaryError ?? []);
  // eight of forty aimed at a neighbour of the target
  const x = Float64Array.from(errors, (e, i) => e.along + (i % 5 === 2 ? 90 : 0));
  const y = Float64Array.from(errors, (e, i) => e.across + (i % 5 === 2 ? 65 : 0));
  const panels = (["robust", "classical"] as const).map((method) => {
    const found = scatterOutliers({ x, y }, { method });
    if (!found.ok || found.cutoff === null) throw new Error("not given");
    const name = `${method}: ${found.outliers.length} of 8 reported`;
    const [[xx, xy], [, yy]] = found.covariance;
    // the cutoff's outline by the triangular root of the covariance
    const outline = Array.from({ length: 73 }, (_, k) => {
      const [u, v] = [Math.cos((k * Math.PI) / 36), Math.sin((k * Math.PI) / 36)];
      const size = Math.sqrt(found.cutoff ?? 0);
      const root = Math.sqrt(xx);
      const rest = Math.sqrt(yy - (xy * xy) / xx);
      return {
        name,
        kind: "cutoff",
        k,
        along: found.location[0] + size * root * u,
        across: found.location[1] + size * ((xy / root) * u + rest * v),
      };
    });
    const points = Array.from(x, (along, i) => {
      return { name, kind: found.outliers.includes(i) ? "reported" : "within", along, across: y[i] };
    });
    return [...points, ...outline];
  });
  return {
    title: "40 simulated endpoints, eight of which went to a neighbour of the target",
    data: { values: panels.flat() },
    facet: { column: { field: "name", type: "nominal", title: null, sort: "descending", header: { labelFontSize: 12 } } },
    spec: {
      width: 300,
      height: 220,
      encoding: {
        x: { field: "along", type: "quantitative", title: "along, px", scale: { domain: [-150, 180], nice: false } },
        y: { field: "across", type: "quantitative", title: "across, px", scale: { domain: [-110, 132], nice: false } },
      },
      layer: [
        {
          transform: [{ filter: "datum.kind !== 'cutoff'" }],
          mark: { type: "point", opacity: 0.75 },
          encoding: {
            color: {
              field: "kind",
              type: "nominal",
              title: null,
              scale: { domain: ["within", "reported"], range: ["#0b6bcb", "#b02a4c"] },
            },
            shape: { field: "kind", type: "nominal", title: null, scale: { domain: ["within", "reported"], range: ["circle", "cross"] } },
          },
        },
        {
          transform: [{ filter: "datum.kind === 'cutoff'" }],
          mark: { type: "line", color: "#333b44", strokeWidth: 1.5 },
          encoding: { order: { field: "k" } },
        },
      ],
    },
  };
}
