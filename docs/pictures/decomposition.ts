import { decomposeSubmovements, detectSubmovements } from "aimed-movement/movement";

/** A correction that starts while the primary brakes: one peak of speed, two components. */
export function spec(): object {
  const rate = 250;
  const bell = (s: number): number => (s <= 0 || s >= 1 ? 0 : 30 * s * s * (1 - s) * (1 - s));
  const n = 150;
  const at = Array.from({ length: n }, (_, i) => i / rate);
  const vx = Float64Array.from(at, (t) => (300 / 0.3) * bell((t - 0.1) / 0.3) + (40 / 0.15) * bell((t - 0.29) / 0.15));
  const zero = new Float64Array(n);
  const { components } = decomposeSubmovements({ t0: 0, sampleRateHz: rate, vx, vy: zero });
  const peaks = detectSubmovements(
    { t0: 0, sampleRateHz: rate, x: zero, y: zero, vx, vy: zero, speed: vx },
    { noiseFloor: 5 },
  ).submovements;
  const ms = (t: number): number => Math.round(1000 * t);
  const values = at.map((t, i) => ({ time: ms(t), speed: Math.round(vx[i]!), what: "speed seen" }));
  for (const [k, c] of components.entries()) {
    for (const t of at) {
      const speed = (c.amplitude / c.duration) * bell((t - c.onset) / c.duration);
      if (t >= c.onset && t <= c.onset + c.duration) values.push({ time: ms(t), speed: Math.round(speed), what: `component ${k + 1}` });
    }
  }
  return {
    title: `An exact profile with ${peaks.length} peak of speed and ${components.length} components`,
    width: 560,
    height: 230,
    data: { values },
    mark: { type: "line" },
    encoding: {
      x: { field: "time", type: "quantitative", title: "ms" },
      y: { field: "speed", type: "quantitative", title: "speed, px/s" },
      color: { field: "what", type: "nominal", title: null },
      strokeDash: { field: "what", type: "nominal", title: null, sort: ["speed seen", "component 1", "component 2"] },
    },
  };
}
