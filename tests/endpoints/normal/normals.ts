// Normal scatters for the tests of their probabilities.
import { fc } from "@fast-check/vitest";
import { type PrincipalNormal, principalNormal } from "../../../src/endpoints/normal/principal-normal.js";

/** A scatter whose axes are x and y. */
export const aligned = (sdX: number, sdY: number, mean: readonly [number, number] = [0, 0]): PrincipalNormal =>
  principalNormal(mean, sdX * sdX, 0, sdY * sdY, 1);

/** Any tilt, an aspect from 1/400 to 1, and a bias up to four of the longer SD. */
export const normalArb: fc.Arbitrary<PrincipalNormal> = fc
  .record({
    long: fc.integer({ min: 1, max: 400 }),
    share: fc.integer({ min: 1, max: 400 }),
    degrees: fc.integer({ min: -90, max: 90 }),
    along: fc.integer({ min: -40, max: 40 }),
    across: fc.integer({ min: -40, max: 40 }),
  })
  .map(({ long, share, degrees, along, across }) => ({
    long: long / 10,
    short: (long / 10) * (share / 400),
    along: (along / 100) * long,
    across: (across / 100) * long,
    cos: Math.cos((degrees * Math.PI) / 180),
    sin: Math.sin((degrees * Math.PI) / 180),
  }));

/** The scatter seen in a frame turned by `degrees`. */
export function turned(normal: PrincipalNormal, degrees: number): PrincipalNormal {
  const c = Math.cos((degrees * Math.PI) / 180);
  const s = Math.sin((degrees * Math.PI) / 180);
  return { ...normal, cos: normal.cos * c - normal.sin * s, sin: normal.cos * s + normal.sin * c };
}
