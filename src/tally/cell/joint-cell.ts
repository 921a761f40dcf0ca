import { addExactly, addProductExactly, canonicalParts } from "../../math/exact-sum.js";
import type { JointTally } from "../types.js";

/** Several measures of one group while they are counted together. */
export interface JointCell {
  /** Counts one row, if it has all values. */
  add(values: readonly (number | undefined)[]): void;
  merge(part: JointTally): void;
  close(): JointTally;
}

/** An empty cell of `size` measures. */
export function createJointCell(size: number): JointCell {
  const sums = Array.from({ length: size }, (): number[] => []);
  const products = Array.from({ length: (size * (size + 1)) / 2 }, (): number[] => []);
  let n = 0;
  return {
    add(values) {
      if (size === 0 || values.includes(undefined)) return;
      n++;
      let at = 0;
      for (let i = 0; i < size; i++) {
        addExactly(sums[i]!, values[i]!);
        for (let j = 0; j <= i; j++) addProductExactly(products[at++]!, values[i]!, values[j]!);
      }
    },
    merge(part) {
      n += part.n;
      mergeSums(sums, part.sums);
      mergeSums(products, part.sumsOfProducts);
    },
    close: () => ({ n, sums: sums.map(canonicalParts), sumsOfProducts: products.map(canonicalParts) }),
  };
}

function mergeSums(into: number[][], from: readonly (readonly number[])[]): void {
  into.forEach((sum, i) => {
    for (const piece of from[i]!) addExactly(sum, piece);
  });
}
