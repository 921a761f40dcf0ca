import { detectSubmovements } from "aimed-movement/movement";

/** Whether a second bell shows, by when it starts and how large it is: exact minimum-jerk pairs. */
export function spec(): object {
  const rate = 500;
  const bell = (s: number): number => (s <= 0 || s >= 1 ? 0 : 30 * s * s * (1 - s) * (1 - s));
  const way = (s: number): number => (s <= 0 ? 0 : s >= 1 ? 1 : s ** 3 * (10 - 15 * s + 6 * s * s));
  const values: { spacing: number; size: number; seen: string }[] = [];
  for (let spacing = 40; spacing <= 140; spacing += 5) {
    for (const size of [2, 5, 10, 20, 40]) {
      const [first, second] = [0.3, 0.15];
      const start = 0.1 + (first * spacing) / 100;
      const n = Math.ceil((start + second + 0.2) * rate);
      const at = Array.from({ length: n }, (_, i) => i / rate);
      const x = Float64Array.from(at, (t) => 400 * way((t - 0.1) / first) + 4 * size * way((t - start) / second));
      const vx = Float64Array.from(at, (t) => (400 / first) * bell((t - 0.1) / first) + ((4 * size) / second) * bell((t - start) / second));
      const zero = new Float64Array(n);
      const { submovements } = detectSubmovements(
        { t0: 0, sampleRateHz: rate, x, y: zero, vx, vy: zero, speed: vx },
        { noiseFloor: 5.3, quantum: 1 },
      );
      values.push({ spacing, size, seen: submovements.length > 1 ? "found" : "hidden" });
    }
  }
  return {
    title: "Which corrections show as a peak of their own (exact bells, 0.3 s and 0.15 s)",
    width: 520,
    height: 200,
    data: { values },
    mark: { type: "point", size: 70 },
    encoding: {
      x: { field: "spacing", type: "quantitative", title: "start of the correction, % of the primary's duration", scale: { zero: false } },
      y: { field: "size", type: "ordinal", title: "correction, % of the amplitude", sort: "descending" },
      shape: { field: "seen", type: "nominal", title: null },
      color: { field: "seen", type: "nominal", title: null },
    },
  };
}
