import { hitProbability } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Probability of a hit against the target's size, by the normal model and by count, for even and for mixed movements. */
export function spec(): object {
  const sets = [
    { name: "120 even movements", points: [...errors(31, 120, 0.05)] },
    { name: "one in six careless: heavy tails", points: [...errors(32, 100, 0.03), ...errors(33, 20, 0.2)] },
  ];
  const values = sets.flatMap(({ name, points }) => {
    const set = { x: Float64Array.from(points, (p) => p.along), y: Float64Array.from(points, (p) => p.across) };
    return Array.from({ length: 25 }, (_, k) => 4 + 4 * k).flatMap((diameter) => {
      const { model, observed } = hitProbability(set, { kind: "circle", diameter }, { draws: 399 });
      if (!model.ok || !observed.ok) return [];
      const line = { name, kind: "normal model", diameter, p: model.value, low: model.interval![0], high: model.interval![1] };
      const count = { name, kind: "counted", diameter, p: observed.value, low: observed.interval![0], high: observed.interval![1] };
      return counted(diameter) ? [line, count] : [line];
    });
  });
  return {
    title: "Simulated endpoints: probability of a hit, 95 % intervals",
    data: { values },
    facet: { column: { field: "name", type: "nominal", title: null, header: { labelFontSize: 12 } } },
    spec: {
      width: 290,
      height: 220,
      encoding: {
        x: { field: "diameter", type: "quantitative", title: "diameter of the target, px" },
        color: { field: "kind", type: "nominal", title: null },
      },
      layer: [
        {
          transform: [{ filter: "datum.kind === 'normal model'" }],
          mark: { type: "area", opacity: 0.15 },
          encoding: { y: { field: "low", type: "quantitative", title: "probability of a hit" }, y2: { field: "high" } },
        },
        {
          transform: [{ filter: "datum.kind === 'normal model'" }],
          mark: { type: "line" },
          encoding: { y: { field: "p", type: "quantitative" } },
        },
        {
          transform: [{ filter: "datum.kind === 'counted'" }],
          mark: { type: "rule" },
          encoding: { y: { field: "low", type: "quantitative" }, y2: { field: "high" } },
        },
        {
          transform: [{ filter: "datum.kind === 'counted'" }],
          mark: { type: "point" },
          encoding: { y: { field: "p", type: "quantitative" } },
        },
      ],
    },
  };
}

/** Every third size is counted, so that the bars stay apart. */
function counted(diameter: number): boolean {
  return diameter % 12 === 4;
}

function errors(seed: number, movements: number, alongSd: number): { along: number; across: number }[] {
  const { truth } = simulateRecording({
    seed,
    movements,
    targets: { amplitude: [400, 400], widths: [40] },
    primary: { alongBias: 0, alongSd, acrossSd: alongSd / 2 },
  });
  return truth.movements.flatMap(({ primaryError }) => (primaryError ? [primaryError] : []));
}
