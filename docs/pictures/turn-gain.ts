import { controlGain } from "aimed-movement";

/** Strokes of the device: distance in counts and duration, invented. */
const STROKES = Array.from({ length: 60 }, (_, i) => ({ device: 20 + ((i * 37) % 60) * 8, duration: 0.12 + ((i * 23) % 40) * 0.01 }));

/** Gain against speed of two invented settings, one constant and one that grows with speed, as `controlGain` reads them. */
export function spec(): object {
  const settings = { "same at every speed": 0, "grows with speed": 0.25 };
  const curves = Object.entries(settings).map(([name, power]) => {
    const pointer = STROKES.map(({ device, duration }) => Math.round(0.7 * device * (device / duration / 1000) ** power));
    const measured = { device: STROKES.map((s) => s.device), duration: STROKES.map((s) => s.duration), pointer };
    return { name, pointer, curve: controlGain({ measured }).curve! };
  });
  const strokes = curves.flatMap(({ name, pointer }) =>
    pointer.map((px, i) => ({ name, speed: STROKES[i]!.device / STROKES[i]!.duration, gain: px / STROKES[i]!.device })),
  );
  const points = curves.flatMap(({ name, curve }) => curve.points.map(({ speed, gain }) => ({ name, speed, gain })));
  const x = { field: "speed", type: "quantitative", title: "speed of the device, counts/s", scale: { type: "log", domain: [50, 6000] } };
  const y = { field: "gain", type: "quantitative", title: "gain, px per count" };
  const shape = { field: "name", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } };
  return {
    title: "Gain of 60 invented strokes each, and its means in five classes of speed",
    width: 520,
    height: 260,
    layer: [
      {
        data: { values: strokes },
        mark: { type: "point", filled: false, size: 25, opacity: 0.6 },
        encoding: { x, y, shape, color: shape },
      },
      {
        data: { values: points },
        mark: { type: "line" },
        encoding: {
          x,
          y,
          color: shape,
          strokeDash: { field: "name", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
        },
      },
    ],
  };
}
