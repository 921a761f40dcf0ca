import { endpointScatter, scatterExtent } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** The same person's endpoints, few and many, with hull and extreme spread. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 9, movements: 160, targets: { amplitude: [400, 400], widths: [40] } });
  const errors = truth.movements.flatMap(({ primaryError }) => primaryError ?? []);
  const values = [10, 160].flatMap((n) => {
    const some = errors.slice(0, n);
    const endpoints = { x: Float64Array.from(some, (e) => e.along), y: Float64Array.from(some, (e) => e.across) };
    const extent = scatterExtent(endpoints);
    const scatter = endpointScatter(endpoints);
    if (!extent.ok || !scatter.ok || !scatter.sd.bivariate.ok) throw new Error("not given");
    const { hull, extremeSpread } = extent;
    const name = `${n} movements: extreme spread ${extremeSpread.value.toFixed(0)} px, SD ${scatter.sd.bivariate.value.toFixed(0)} px`;
    const place = (kind: string, i: number, k: number) => ({ name, n, kind, k, along: endpoints.x[i], across: endpoints.y[i] });
    return [
      ...some.map((_, i) => place("endpoint", i, i)),
      ...[...hull.vertices, hull.vertices[0]!].map((i, k) => place("hull", i, k)),
      ...extremeSpread.between.map((i, k) => place("extreme spread", i, k)),
    ];
  });
  return {
    title: "Endpoints of one simulated person: the extremes grow with their number",
    data: { values },
    facet: { column: { field: "name", type: "nominal", title: null, sort: { field: "n" }, header: { labelFontSize: 12 } } },
    spec: {
      width: 300,
      height: 200,
      encoding: {
        x: { field: "along", type: "quantitative", title: "along, px", scale: { domain: [-85, 65], nice: false } },
        y: { field: "across", type: "quantitative", title: "across, px", scale: { domain: [-50, 50], nice: false } },
      },
      layer: [
        { transform: [{ filter: "datum.kind === 'endpoint'" }], mark: { type: "point", opacity: 0.5 } },
        {
          transform: [{ filter: "datum.kind !== 'endpoint'" }],
          mark: { type: "line", strokeWidth: 1.5 },
          encoding: {
            order: { field: "k" },
            color: {
              field: "kind",
              type: "nominal",
              title: null,
              scale: { domain: ["hull", "extreme spread"], range: ["#333b44", "#d1580b"] },
            },
            strokeDash: {
              field: "kind",
              type: "nominal",
              title: null,
              scale: {
                domain: ["hull", "extreme spread"],
                range: [
                  [1, 0],
                  [5, 3],
                ],
              },
            },
          },
        },
      ],
    },
  };
}
