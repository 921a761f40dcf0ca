import { createPointTree } from "./point-tree.js";

/** From point 0 always to the nearest point not yet visited; of equally near ones to the lowest number. */
export function nearestNeighbourOrder(x: Float64Array, y: Float64Array): number[] {
  const tree = createPointTree(x, y);
  const order: number[] = [];
  for (let at = x.length > 0 ? 0 : -1; at !== -1; at = tree.nearest(at)) {
    order.push(at);
    tree.remove(at);
  }
  return order;
}
