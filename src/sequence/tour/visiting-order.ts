import type { TourKind } from "../../math/exact-order.js";

export type { TourKind };

/** Length of the way through the points in `order`, back to its start when `closed`. */
export function orderLength(x: Float64Array, y: Float64Array, order: ArrayLike<number>, closed: boolean): number {
  let length = 0;
  for (let i = closed ? 0 : 1; i < order.length; i++) {
    const from = order[i === 0 ? order.length - 1 : i - 1]!;
    const to = order[i]!;
    const dx = x[to]! - x[from]!;
    const dy = y[to]! - y[from]!;
    length += Math.sqrt(dx * dx + dy * dy);
  }
  return length;
}

/** The same way, told in one agreed manner: a closed one from point 0 on, and of the two directions the one with the smaller number earlier. */
export function normalOrder(order: readonly number[], kind: TourKind): number[] {
  if (kind === "fromFirst") return order.slice();
  if (kind === "open") return order[0]! > order[order.length - 1]! ? order.slice().reverse() : order.slice();
  const start = order.indexOf(0);
  const turned = [...order.slice(start), ...order.slice(0, start)];
  if (turned.length > 2 && turned[1]! > turned[turned.length - 1]!) return [0, ...turned.slice(1).reverse()];
  return turned;
}

/** The distance between two of the points. */
export function distanceOf(x: Float64Array, y: Float64Array): (a: number, b: number) => number {
  return (a, b) => {
    const dx = x[a]! - x[b]!;
    const dy = y[a]! - y[b]!;
    return Math.sqrt(dx * dx + dy * dy);
  };
}
