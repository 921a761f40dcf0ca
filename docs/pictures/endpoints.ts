import { analyze } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Primary endpoints and presses about the target. */
export function spec(): object {
  const { recording } = simulateRecording({ seed: 9, movements: 80, targets: { amplitude: [400, 400], widths: [40] } });
  const values = analyze(recording).flatMap(({ errors }) =>
    (["primary", "press"] as const).flatMap((end) => {
      const { along, across } = errors[end] ?? {};
      return along === undefined || across === undefined
        ? []
        : [{ end: end === "primary" ? "end of the primary" : "press", along, across }];
    }),
  );
  const circle = Array.from({ length: 61 }, (_, i) => ({
    k: i,
    along: 20 * Math.cos((i * Math.PI) / 30),
    across: 20 * Math.sin((i * Math.PI) / 30),
  }));
  return {
    title: "Where 80 simulated movements ended, about a target of 40 px",
    width: 500,
    height: 250,
    layer: [
      {
        data: { values },
        mark: { type: "point", opacity: 0.7 },
        encoding: {
          x: { field: "along", type: "quantitative", title: "along, px (positive: beyond the centre)", scale: { domain: [-75, 50] } },
          y: {
            field: "across",
            type: "quantitative",
            title: "across, px (positive: left)",
            scale: { domain: [-31.25, 31.25], nice: false },
          },
          shape: { field: "end", type: "nominal", title: null },
          color: { field: "end", type: "nominal", title: null },
        },
      },
      {
        data: { values: circle },
        mark: { type: "line", color: "#333b44", strokeWidth: 1 },
        encoding: { x: { field: "along", type: "quantitative" }, y: { field: "across", type: "quantitative" }, order: { field: "k" } },
      },
    ],
  };
}
