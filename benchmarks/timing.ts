// What the benchmark modules share: the time of a call, and how it grows.
import { median } from "simple-statistics";
import type { Figure } from "../tests/validation/figure.js";

const RUNS = 7;

/** Median seconds of a call, and what it gave. */
export function timed<T>(call: () => T): { seconds: number; value: T } {
  let value = call();
  const times = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    value = call();
    return (performance.now() - start) / 1000;
  });
  return { seconds: median(times), value };
}

/** Power of the size with which the time of a call on `draw(size)` grows between the two largest of sizes a factor of ten apart. */
export function growthOf<T>(
  name: string,
  sizes: readonly number[],
  most: number,
  draw: (n: number) => T,
  call: (data: T) => unknown,
): Figure {
  const seconds = sizes.map((n) => {
    const data = draw(n);
    return timed(() => call(data)).seconds;
  });
  const value = Math.log10(seconds.at(-1)! / seconds.at(-2)!);
  const source = sizes.map((n, i) => `${n.toExponential(0)}: ${(1000 * seconds[i]!).toPrecision(3)} ms`).join(", ");
  return { name, value, bar: `<= ${most} (exponent)`, ok: value <= most, source };
}
