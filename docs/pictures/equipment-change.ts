import { compareEquipment } from "aimed-movement";

const WORDS: Readonly<Record<string, string>> = {
  latency: "response latency",
  primaryTime: "time of the primary movement",
  correctionTime: "time of corrections",
  verificationTime: "time from stop to press",
  acquisitionTime: "whole acquisition",
  pursuitLag: "pursuit lag",
};

/** What two changes of equipment do to the measures of the same person, with 1.5 corrections per acquisition. */
export function spec(): object {
  const old = { id: "old", refreshHz: 60, latency: 0.08, reportHz: 1000 };
  const changes = {
    "measured: 80 to 30 ms": compareEquipment(old, { id: "new", refreshHz: 144, latency: 0.03, reportHz: 1000 }, { loops: 1.5 }),
    "not measured: 60 to 144 Hz": compareEquipment(
      { id: "old", refreshHz: 60, reportHz: 1000 },
      { id: "new", refreshHz: 144, reportHz: 1000 },
      { loops: 1.5 },
    ),
  };
  const values = Object.entries(changes).flatMap(([kind, { effects }]) =>
    effects.flatMap(({ measure, change }) =>
      WORDS[measure] !== undefined && change.ok && change.interval !== undefined
        ? [{ kind, measure: WORDS[measure], change: 1000 * change.value, low: 1000 * change.interval[0], high: 1000 * change.interval[1] }]
        : [],
    ),
  );
  const y = { field: "measure", type: "nominal", sort: Object.values(WORDS), title: null, axis: { labelLimit: 260 } } as const;
  const yOffset = { field: "kind", type: "nominal", sort: null } as const;
  const color = { field: "kind", type: "nominal", title: null, sort: null, legend: { labelLimit: 320, orient: "top" } } as const;
  return {
    title: "What a new display does to the same person, no skill changed",
    width: 420,
    height: 260,
    data: { values },
    layer: [
      {
        mark: { type: "rule", strokeWidth: 2 },
        encoding: {
          y,
          yOffset,
          color,
          strokeDash: { field: "kind", type: "nominal", title: null, sort: null, legend: { labelLimit: 320, orient: "top" } },
          x: { field: "low", type: "quantitative", title: "change, ms (line: 95 % interval)" },
          x2: { field: "high" },
        },
      },
      {
        mark: { type: "point", filled: true, size: 50 },
        encoding: {
          y,
          yOffset,
          color,
          shape: { field: "kind", type: "nominal", title: null, sort: null, legend: { labelLimit: 320, orient: "top" } },
          x: { field: "change", type: "quantitative" },
        },
      },
    ],
  };
}
