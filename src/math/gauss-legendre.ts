// The rule of Gauss and Legendre with 20 nodes, exact for polynomials up to degree 39: zeros of the Legendre polynomial of degree 20 and their
// weights, computed with mpmath in 40 digits. Nodes lie at plus and minus each number, on an interval from -1 to 1.

/** Positive nodes, ascending. */
export const NODES: readonly number[] = [
  0.07652652113349734, 0.22778585114164507, 0.37370608871541955, 0.5108670019508271, 0.636053680726515, 0.7463319064601508,
  0.8391169718222188, 0.912234428251326, 0.9639719272779138, 0.9931285991850949,
];

/** Weight of each node, the same on both sides. */
export const WEIGHTS: readonly number[] = [
  0.15275338713072584, 0.14917298647260374, 0.14209610931838204, 0.13168863844917664, 0.11819453196151841, 0.10193011981724044,
  0.08327674157670475, 0.06267204833410907, 0.04060142980038694, 0.017614007139152118,
];
