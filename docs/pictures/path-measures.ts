import { analyze, pathAccuracy, projectEndpoints } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** The path of one simulated movement about its task axis, with what was counted on it. */
export function spec(): object {
  const { recording } = simulateRecording({
    seed: 3,
    movements: 40,
    targets: { amplitude: [400, 400], widths: [40] },
    primary: { alongBias: 0.08, acrossSd: 0.05 },
  });
  const { trace, targets } = recording;
  const paths = analyze(recording).flatMap(({ target: id, times }) => {
    const target = targets.find((one) => one.id === id)!;
    if (times.onset === undefined || times.press === undefined || !("x" in target.at) || "t" in target.at) return [];
    const first = trace.t.findIndex((t) => t >= times.onset!);
    const end = trace.t.findIndex((t) => t > times.press!);
    const path = { x: trace.x.subarray(first, end), y: trace.y.subarray(first, end) };
    const from = { x: path.x[0]!, y: path.y[0]! };
    return [{ path, from, to: target.at, found: pathAccuracy(path, from, target.at, { shape: target.shape, deadBand: 1.5 }) }];
  });
  const { path, from, to, found } = paths.reduce((most, one) => (wiggles(one.found) > wiggles(most.found) ? one : most));
  const every = (value: number): Float64Array => new Float64Array(path.x.length).fill(value);
  const { along, across, amplitude } = projectEndpoints({ x: every(from.x), y: every(from.y) }, { x: every(to.x), y: every(to.y) }, path);
  const values = Array.from(along, (x, k) => ({ k, x: x + amplitude[k]!, y: across[k]! }));
  const circle = Array.from({ length: 61 }, (_, k) => ({
    k,
    x: amplitude[0]! + 20 * Math.cos((k * Math.PI) / 30),
    y: 20 * Math.sin((k * Math.PI) / 30),
  }));
  const { movementOffset: offset } = found;
  const line = { x: { field: "x", type: "quantitative" }, y: { field: "y", type: "quantitative" }, order: { field: "k" } };
  return {
    title: {
      text: "One simulated path about its task axis",
      subtitle: `re-entries ${found.targetReentry}, crossings ${found.taskAxisCrossing}, direction changes ${found.movementDirectionChange} and orthogonal ${found.orthogonalDirectionChange}, offset ${offset.ok ? offset.value.toFixed(1) : "none"} px, efficiency ${found.pathEfficiency?.toFixed(2)}`,
    },
    width: 600,
    height: 180,
    layer: [
      {
        data: { values: [{}] },
        mark: { type: "rule", color: "#8a94a0", strokeDash: [4, 4] },
        encoding: { y: { datum: 0, type: "quantitative" } },
      },
      {
        data: { values },
        mark: { type: "line", point: { size: 12 }, strokeWidth: 1 },
        encoding: {
          ...line,
          x: { ...line.x, title: "along the axis from the start, px", scale: { domain: [-10, 490], nice: false } },
          y: { ...line.y, title: "across, px (positive: left)", scale: { domain: [-75, 75], nice: false } },
        },
      },
      { data: { values: circle }, mark: { type: "line", color: "#333b44", strokeWidth: 1 }, encoding: line },
    ],
  };
}

function wiggles(found: ReturnType<typeof pathAccuracy>): number {
  return (found.targetReentry ?? 0) + (found.taskAxisCrossing ?? 0) + (found.orthogonalDirectionChange ?? 0);
}
