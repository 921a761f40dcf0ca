import { analyzePursuit } from "aimed-movement";
import { simulatePursuit } from "aimed-movement/simulate";

const FROM = 12;
const TO = 18;

/** Six seconds of following along one axis, the distance from the target, and the correlation's lag. */
export function spec(): object {
  const { recording } = simulatePursuit({
    seed: 18,
    duration: 60,
    target: { path: "randomWalk", turnDeg: [160, 180], speed: [220, 220] },
    follower: { delay: 0.16, gain: 0.8 },
    catchUp: { deadZone: 16 },
    noise: { sd: 2 },
  });
  const [found] = analyzePursuit(recording);
  const { lag, onTarget, catchUp, changes } = found!;
  const start = recording.trials[0]!.tStart;
  const track = recording.targets[0]!.at;
  if (!("t" in track)) throw new Error("the target stands still");
  const inside = (t: number): boolean => t - start >= FROM && t - start <= TO;
  const line = ({ t, x }: { t: Float64Array; x: Float64Array }, kind: string): object[] =>
    Array.from(t, (time, i) => ({ t: time, s: time - start, x: x[i]!, kind })).filter(({ t: time }) => inside(time));
  const paths = [...line(track, "target"), ...line(recording.trace, "pointer")];
  // frames come often enough that the last one before serves
  const lastBy = (times: Float64Array, time: number): number => times.filter((t) => t <= time).length - 1;
  const frame = (time: number): number => lastBy(track.t, time);
  const at = (time: number): number => recording.trace.x[lastBy(recording.trace.t, time)]!;
  const distances = Array.from(recording.trace.t, (t, i) => ({ t, i }))
    .filter(({ t }) => inside(t))
    .map(({ t, i }) => {
      const k = frame(t);
      return { s: t - start, distance: Math.sqrt((recording.trace.x[i]! - track.x[k]!) ** 2 + (recording.trace.y[i]! - track.y[k]!) ** 2) };
    });
  const events = [
    ...catchUp.movements
      .filter(({ peak }) => inside(peak))
      .map(({ peak }) => ({ s: peak - start, x: at(peak), what: "catch-up movement" })),
    ...changes.events
      .filter(({ t, latency }) => inside(t) && latency !== null)
      .map(({ t, latency }) => ({ s: t + latency! - start, x: at(t + latency!), what: "answer to a turn" })),
  ];
  if (!lag.byCorrelation.ok || !onTarget.share.ok) throw new Error("nothing was found");
  const facts = `lag ${Math.round(1000 * lag.byCorrelation.value)} ms, on target ${Math.round(100 * onTarget.share.value)} % of 60 s`;
  const x = { field: "s", type: "quantitative", scale: { domain: [FROM, TO] } };
  return {
    title: `Following a target that turns without warning, simulated: ${facts}`,
    vconcat: [
      {
        width: 620,
        height: 220,
        layer: [
          {
            data: { values: paths },
            mark: { type: "line", strokeWidth: 1.6 },
            encoding: {
              x: { ...x, title: null },
              y: { field: "x", type: "quantitative", title: "place to the right, px", scale: { zero: false } },
              color: {
                field: "kind",
                type: "nominal",
                title: null,
                scale: { domain: ["target", "pointer"], range: ["#6b7280", "#0b6bcb"] },
              },
              strokeDash: {
                field: "kind",
                type: "nominal",
                title: null,
                scale: {
                  domain: ["target", "pointer"],
                  range: [
                    [6, 3],
                    [1, 0],
                  ],
                },
              },
            },
          },
          {
            data: { values: events },
            mark: { type: "point", size: 70, filled: true, color: "#d1580b" },
            encoding: {
              x,
              y: { field: "x", type: "quantitative" },
              shape: { field: "what", type: "nominal", title: null, scale: { range: ["triangle-up", "square"] } },
            },
          },
        ],
      },
      {
        width: 620,
        height: 90,
        layer: [
          {
            data: { values: distances },
            mark: { type: "area", color: "#0b6bcb", opacity: 0.35 },
            encoding: {
              x: { ...x, title: "seconds" },
              y: { field: "distance", type: "quantitative", title: "distance, px" },
            },
          },
          {
            data: { values: [{ radius: 30 }] },
            mark: { type: "rule", strokeDash: [4, 3], color: "#3c7d3c" },
            encoding: { y: { field: "radius", type: "quantitative" } },
          },
          {
            data: { values: [{ radius: 30, s: FROM + 0.05, text: "edge of the target" }] },
            mark: { type: "text", align: "left", dy: -7, color: "#3c7d3c" },
            encoding: { x, y: { field: "radius", type: "quantitative" }, text: { field: "text" } },
          },
        ],
      },
    ],
  };
}
