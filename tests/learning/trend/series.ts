// Series for tests of trends, and the plain way to list the slopes between their points.
import { fc } from "@fast-check/vitest";

/** The annual flow of the Nile at Aswan, 1871-1970, 1e8 m^3 (R datasets::Nile, statsmodels.datasets.nile). */
export const NILE: readonly number[] = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140, 1100, 1210, 1150, 1250,
  1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821,
  768, 845, 864, 862, 698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860,
  874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
];

export interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Points with x never falling; ties in x, in y and in both are common. */
export const pointsArb = (minLength: number, maxLength = 40): fc.Arbitrary<Points> =>
  fc
    .record({ coarse: fc.boolean(), rows: fc.array(fc.tuple(fc.nat(5), fc.integer({ min: -4000, max: 4000 })), { minLength, maxLength }) })
    .map(({ coarse, rows }) => {
      let x = 0;
      return {
        x: Float64Array.from(rows, ([step]) => (x += Math.max(0, step - 1) / 4)),
        y: Float64Array.from(rows, ([, value]) => (coarse ? Math.round(value / 1000) : value / 1000)),
      };
    });

/** Values, many of them equal in half of the lists. */
export const valuesArb = (minLength: number, maxLength = 40): fc.Arbitrary<Float64Array> =>
  pointsArb(minLength, maxLength).map(({ y }) => y);

/** Slopes of all pairs with different x, ascending: every pair looked at. */
export function plainSlopes({ x, y }: Points): number[] {
  const slopes: number[] = [];
  for (let j = 0; j < x.length; j++) {
    for (let i = 0; i < j; i++) if (x[i]! !== x[j]!) slopes.push((y[j]! - y[i]!) / (x[j]! - x[i]!));
  }
  return slopes.sort((a, b) => a - b);
}

/** Every order of a short list. */
export function orders(list: readonly number[]): number[][] {
  if (list.length < 2) return [list.slice()];
  return list.flatMap((value, i) => orders([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [value, ...rest]));
}

/** Columns copied, to see afterwards that nothing was changed. */
export const same = (a: Float64Array, b: Float64Array): boolean => a.length === b.length && a.every((value, i) => Object.is(value, b[i]));
