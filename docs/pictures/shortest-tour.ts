import { shortestTour } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** A field of simulated targets, taken by a simulated person who now and then skips the nearest, beside the shortest order. */
export function spec(): object {
  const { recording } = simulateRecording({ seed: 24, movements: 13 });
  const field = recording.targets.flatMap(({ at }) => ("t" in at ? [] : [at]));
  const taken = choose(field);
  const { order, length, given, efficiency } = shortestTour({
    x: Float64Array.from(taken, (point) => point.x),
    y: Float64Array.from(taken, (point) => point.y),
  });
  const rows = (name: string, points: readonly Point[]): object[] => points.map(({ x, y }, k) => ({ name, x, y, k, visit: k + 1 }));
  const names = [`as taken, ${given.toFixed(0)} px`, `shortest, ${length.toFixed(0)} px`] as const;
  const position = {
    x: { field: "x", type: "quantitative", title: "x, px", scale: { domain: [0, 2000] } },
    y: { field: "y", type: "quantitative", title: "y, px", scale: { domain: [200, 1400], reverse: true } },
  };
  return {
    title: {
      text: "One field of simulated targets in two orders from the same start",
      subtitle: `efficiency ${efficiency!.toFixed(2)}: every third choice of the simulated person skips the nearest target left`,
    },
    data: {
      values: [
        ...rows(names[0], taken),
        ...rows(
          names[1],
          order.map((i) => taken[i]!),
        ),
      ],
    },
    facet: { column: { field: "name", type: "nominal", title: null, sort: names } },
    spec: {
      width: 300,
      height: 180,
      layer: [
        { mark: { type: "line", strokeWidth: 1.5 }, encoding: { ...position, order: { field: "k" } } },
        { mark: { type: "circle", size: 260, color: "white", stroke: "#0b6bcb", opacity: 1 }, encoding: position },
        { mark: { type: "text", fontSize: 10 }, encoding: { ...position, text: { field: "visit" } } },
      ],
    },
  };
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** From the first target to the nearest left, but every third time to the second nearest. */
function choose(field: readonly Point[]): Point[] {
  const taken = [field[0]!];
  const left = field.slice(1);
  while (left.length > 0) {
    const { x, y } = taken[taken.length - 1]!;
    left.sort((a, b) => (a.x - x) ** 2 + (a.y - y) ** 2 - (b.x - x) ** 2 - (b.y - y) ** 2);
    taken.push(...left.splice(taken.length % 3 === 0 && left.length > 1 ? 1 : 0, 1));
  }
  return taken;
}
