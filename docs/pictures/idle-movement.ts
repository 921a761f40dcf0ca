import { analyze, idleMovement } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** How far each person strays from the last target between two tasks, px; strayed and returned in 0.3 s each. */
const people = [
  { person: "waits where it pressed", stray: 0 },
  { person: "strays 50 px and returns", stray: 50 },
  { person: "strays 150 px and returns", stray: 150 },
] as const;

/** Where the path of three simulated sessions went: needed, beyond need, and between the tasks. */
export function spec(): object {
  const { recording, truth } = simulateRecording({ seed: 71, movements: 80, pause: [0.7, 1.1], recorder: { eventsOnly: false } });
  const rows = analyze(recording);
  const path = rows.reduce((sum, { economy }) => sum + (economy?.pathLength ?? 0), 0);
  const needed = rows.reduce((sum, { economy }) => sum + (economy?.pathLength ?? 0) * (economy?.efficiency ?? 1), 0);
  const values = people.flatMap(({ person, stray }) => {
    const trace = { ...recording.trace, x: recording.trace.x.slice() };
    for (const { end } of truth.movements) {
      for (let i = 0; i < trace.t.length; i++) {
        const since = trace.t[i]! - end - 0.05;
        trace.x[i] = Math.round(trace.x[i]! + stray * (covered(since / 0.3) - covered((since - 0.3) / 0.3)));
      }
    }
    const { pathLength } = idleMovement({ ...recording, trace }, rows);
    if (!pathLength.ok) throw new Error("the picture needs a path");
    const part = (what: string, order: number, px: number): object => ({ person, part: what, order, px: px / rows.length });
    return [part("needed", 0, needed), part("beyond need", 1, path - needed), part("idle", 2, pathLength.value)];
  });
  return {
    title: "Path per acquisition of one simulated session, with three ways to wait",
    width: 480,
    height: 130,
    data: { values },
    mark: { type: "bar" },
    encoding: {
      y: { field: "person", type: "nominal", title: null, sort: null, axis: { labelLimit: 0 } },
      x: { field: "px", type: "quantitative", title: "mean path per acquisition, px" },
      color: { field: "part", type: "nominal", title: "path", sort: ["needed", "beyond need", "idle"] },
      order: { field: "order", type: "quantitative" },
    },
  };
}

/** Share of a smooth stroke's way. */
function covered(s: number): number {
  return s <= 0 ? 0 : s >= 1 ? 1 : s * s * s * (10 - 15 * s + 6 * s * s);
}
