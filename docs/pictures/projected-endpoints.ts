import { projectEndpoints } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** The same simulated endpoints on the screen, and each in the frame of its own movement. */
export function spec(): object {
  const { truth } = simulateRecording({
    seed: 14,
    movements: 120,
    targets: { amplitude: [400, 400], widths: [40] },
    primary: { alongBias: -0.06, alongSd: 0.03, acrossSd: 0.012 },
  });
  const moves = truth.movements.flatMap(({ start, centre, directionDeg, primaryError: error }) => {
    const [ux, uy] = [Math.cos((directionDeg * Math.PI) / 180), Math.sin((directionDeg * Math.PI) / 180)];
    return error === undefined
      ? []
      : [{ start, centre, dx: ux * error.along + uy * error.across, dy: uy * error.along - ux * error.across }];
  });
  const { along, across } = projectEndpoints(
    { x: Float64Array.from(moves, (m) => m.start.x), y: Float64Array.from(moves, (m) => m.start.y) },
    { x: Float64Array.from(moves, (m) => m.centre.x), y: Float64Array.from(moves, (m) => m.centre.y) },
    { x: Float64Array.from(moves, (m) => m.centre.x + m.dx), y: Float64Array.from(moves, (m) => m.centre.y + m.dy) },
  );
  const circle = Array.from({ length: 61 }, (_, k) => ({ k, x: 20 * Math.cos((k * Math.PI) / 30), y: 20 * Math.sin((k * Math.PI) / 30) }));
  const panel = (values: readonly object[], x: string, y: string, down: boolean): object => {
    const scale = { domain: [-70, 70], nice: false };
    return {
      width: 260,
      height: 260,
      layer: [
        {
          data: { values },
          mark: { type: "point", opacity: 0.7 },
          encoding: {
            x: { field: "x", type: "quantitative", title: x, scale },
            y: { field: "y", type: "quantitative", title: y, scale: { ...scale, reverse: down } },
          },
        },
        {
          data: { values: circle },
          mark: { type: "line", color: "#333b44", strokeWidth: 1 },
          encoding: { x: { field: "x", type: "quantitative" }, y: { field: "y", type: "quantitative" }, order: { field: "k" } },
        },
      ],
    };
  };
  return {
    title: "Ends of 120 simulated primary movements in all directions, about a target of 40 px",
    hconcat: [
      panel(
        moves.map(({ dx, dy }) => ({ x: dx, y: dy })),
        "to the right on the screen, px",
        "downward on the screen, px",
        true,
      ),
      panel(
        Array.from(along, (x, i) => ({ x, y: across[i]! })),
        "along, px (positive: beyond the centre)",
        "across, px (positive: left)",
        false,
      ),
    ],
  };
}
