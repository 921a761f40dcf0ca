import { fc, test } from "@fast-check/vitest";
import { derivative, parse } from "mathjs";
import { describe, expect, it } from "vitest";
import { lawFromText } from "../../src/formula/law-from-text.js";
import { createRandom } from "../../src/math/random.js";

const LAWS = [
  "a + b * exp(-c * (N - 1))",
  "a + b * N^(-c)",
  "a + b * (N + e)^(-c)",
  "a + b * N^-c * exp(-d * N)",
  "a + b * (d + 1) / (d + exp(c * (N - 1)))",
  "a * b^(c * N) + d^N",
  "(a + N)^(b * N)",
  "-a^2 * log(N + b) / log10(N + c + 1)",
  "a + sqrt(b * N + c) - +d",
  "a * sin(2 * pi * N / b) + c * cos(N / d)",
  "a * tanh(b * N) + c * atan(d * N)",
  "pow(N + a, b) - .5e-1 * N ^ 2 ^ (1 / 3) + c",
  "1 / (1 + exp(-(a + b * N))) ^ (1 / c)",
  "(a * N^2 + b * N) / (N^2 + c * N + d)",
  "a - (b - (N - c)) / -(-d)",
];

/** Largest difference as a share of the larger size, over value and derivatives at random points. */
function worstShare(text: string): number {
  const law = lawFromText(text);
  const tree = parse(text);
  const value = tree.compile();
  const slopes = law.parameters.map((name) => derivative(tree, name).compile());
  const random = createRandom(20261125);
  const out = new Float64Array(law.parameters.length);
  let worst = 0;
  for (let k = 0; k < 50; k++) {
    const N = 1 + Math.floor(random.uniform(0, 30));
    const parameters = law.parameters.map(() => random.uniform(0.2, 1.8));
    const scope = { N, ...Object.fromEntries(law.parameters.map((name, j) => [name, parameters[j]!])) };
    law.gradient(N, parameters, out);
    const pairs = [
      [law.value(N, parameters), value.evaluate({ ...scope })],
      ...slopes.map((slope, j) => [out[j]!, slope.evaluate({ ...scope })]),
    ];
    for (const [got, expected] of pairs) worst = Math.max(worst, Math.abs(got - expected) / Math.max(1, Math.abs(expected)));
  }
  return worst;
}

describe("lawFromText against outside values", () => {
  // Source: mathjs 15.2.0, evaluate and derivative, at 50 random points a law; 1e-12 is the rounding of some dozen operations
  it.each(LAWS)("agrees with mathjs on the value and every derivative of %s", (text) => {
    expect(worstShare(text)).toBeLessThan(1e-12);
  });

  // Source: closed form
  it("has the values and derivatives of the exponential law", () => {
    const law = lawFromText("a + b * exp(-c * (N - 1))");
    const out = new Float64Array(3);
    law.gradient(3, [1, 2, 0.5], out);
    expect(law.value(3, [1, 2, 0.5])).toBeCloseTo(1 + 2 * Math.exp(-1), 14);
    expect(out[0]).toBe(1);
    expect(out[1]).toBeCloseTo(Math.exp(-1), 14);
    expect(out[2]).toBeCloseTo(-4 * Math.exp(-1), 14);
  });

  // Source: closed form, the limit of x^c log(x) at 0
  it("has the derivative of a power of zero by its exponent", () => {
    const law = lawFromText("a - b * (N - 1)^c");
    const out = new Float64Array(3);
    law.gradient(1, [5, 2, 0.5], out);
    expect(law.value(1, [5, 2, 0.5])).toBe(5);
    expect(Array.from(out, Math.abs)).toEqual([1, 0, 0]);
  });

  // Source: ordinary notation, from memory: powers first and from the right, then the sign, then products and sums from the left
  it.each([
    ["-a^2 * N", -9],
    ["a^2^3 * N", 6561],
    ["a - 1 - 1 + 0 * N", 1],
    ["12 / a / 2 * N", 2],
    ["2^-a * N", 0.125],
  ])("reads %s in the usual order", (text, expected) => {
    expect(lawFromText(text).value(1, [3])).toBeCloseTo(expected, 12);
  });
});

describe("lawFromText properties", () => {
  const numbers = fc.double({ min: 0.3, max: 2, noNaN: true });
  const leaf = fc.constantFrom("N", "a", "b", "c", "0.7", "2", "pi");
  const { tree } = fc.letrec<{ tree: string }>((tie) => ({
    tree: fc.oneof(
      { maxDepth: 4, withCrossShrink: true },
      leaf,
      fc.tuple(tie("tree"), fc.constantFrom("+", "-", "*", "/"), tie("tree")).map(([l, sign, r]) => `(${l} ${sign} ${r})`),
      fc.tuple(fc.constantFrom("exp", "sin", "cos", "atan", "tanh"), tie("tree")).map(([name, inner]) => `${name}(${inner} / 9)`),
      tie("tree").map((inner) => `log(2 + (${inner})^2)`),
      tie("tree").map((inner) => `sqrt(2 + (${inner})^2)`),
      fc.tuple(tie("tree"), tie("tree")).map(([base, power]) => `(1 + (${base})^2)^sin(${power})`),
    ),
  }));

  test.prop([tree, fc.tuple(numbers, numbers, numbers), fc.integer({ min: 1, max: 20 })])(
    "has derivatives that agree with central differences",
    (text, point, N) => {
      const law = lawFromText(`a + ${text} + 0 * (N + b + c)`);
      const at = law.parameters.map((name) => point["abc".indexOf(name)]!);
      const out = new Float64Array(3);
      law.gradient(N, at, out);
      for (let j = 0; j < 3; j++) {
        const difference = (h: number): number => {
          const moved = (step: number): number =>
            law.value(
              N,
              at.map((v, i) => (i === j ? v + step : v)),
            );
          return (moved(h) - moved(-h)) / (2 * h);
        };
        const [coarse, fine] = [difference(2e-4), difference(1e-4)];
        const size = Math.abs(law.value(N, at)) + Math.abs(fine);
        // only where the difference itself has settled, which it has not beside a pole
        if (!(Math.abs(coarse - fine) < 1e-6 * size)) continue;
        expect(Math.abs(out[j]! - fine)).toBeLessThan(1e-5 * Math.max(size, 1e-3));
      }
    },
  );

  test.prop([fc.array(fc.tuple(fc.integer({ min: 1, max: 3 }), numbers), { minLength: 2, maxLength: 6 })], { numRuns: 15 })(
    "does not depend on what was asked before",
    (points) => {
      const text = "a * exp(-b * N) + log(a)";
      const kept = lawFromText(text);
      const out = new Float64Array(2);
      for (const [N, a] of points) {
        const fresh = lawFromText(text);
        const own = new Float64Array(2);
        fresh.gradient(N, [a, 0.5], own);
        kept.gradient(N, [a, 0.5], out);
        expect(out).toEqual(own);
        expect(kept.value(N, [a, 0.5])).toBe(fresh.value(N, [a, 0.5]));
      }
    },
  );

  it("names its parameters in the order in which they appear, any name of the practice left out", () => {
    expect(lawFromText("c + a * t^-b + c", { practice: "t" }).parameters).toEqual(["c", "a", "b"]);
    expect(lawFromText("x * N + pi").parameters).toEqual(["x"]);
  });

  it("has names and values for what means something elsewhere", () => {
    // e, i and cm are no constants or units here
    expect(lawFromText("e * N + i + cm").parameters).toEqual(["e", "i", "cm"]);
    expect(lawFromText("e * N + i + cm").value(2, [1, 10, 100])).toBe(112);
    expect(lawFromText("p1 * N + p0 + x + k").value(2, [1, 10, 100, 1000])).toBe(1112);
  });

  it("takes starts and bounds by name", () => {
    const law = lawFromText("a + b * exp(-c * N)", { starts: [{ a: 2 }, { a: 3, c: 0.2 }], lower: { c: 0, b: 1.5 }, upper: { c: 1 } });
    expect(law.starts).toEqual([
      [2, 1.5, 1],
      [3, 1.5, 0.2],
    ]);
    expect(law.lower).toEqual([Number.NEGATIVE_INFINITY, 1.5, 0]);
    expect(law.upper).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 1]);
    expect(law.formula).toBe("a + b * exp(-c * N)");
    expect(lawFromText("a * N").starts).toEqual([[1]]);
  });

  it("stays quick for the longest texts", () => {
    const nested = `${"sqrt(a+".repeat(24)}N${")".repeat(24)}`;
    const product = Array.from({ length: 12 }, (_, j) => `(p${j}*N+1)`).join("*");
    for (const text of [nested, product, `a${"^N".repeat(190)}`, `${"-".repeat(390)}N*a`]) {
      const from = performance.now();
      try {
        lawFromText(text);
      } catch (error) {
        expect((error as Error).message).toMatch(/^lawFromText: text /);
      }
      expect(performance.now() - from).toBeLessThan(3000);
    }
  });
});

describe("lawFromText bad input", () => {
  it.each([
    ["a + b[1] * N", /lawFromText: text must hold only numbers, names, .*, got "\[1\] \* N" at character 6/],
    ["a.constructor * N", /must hold only .*, got "\.constructor..." at character 2/],
    ["a = N", /must hold only .* at character 3/],
    ["f(x) = N", /must call no function but exp, .*, got "f\(x\) = N" at character 1/],
    ["a; N", /must hold only/],
    ["'a' * N", /must hold only/],
    ['"a" * N', /must hold only/],
    ["`a` * N", /must hold only/],
    ["{a: 1} * N", /must hold only/],
    ["a:N", /must hold only/],
    ["a' * N", /must hold only/],
    ["a! * N", /must hold only/],
    ["5% * a * N", /must hold only/],
    ["a == N", /must hold only/],
    ["a ? N : 1", /must hold only/],
    ["a\u00b2 * N", /must hold only/],
    ["_a * N", /must hold only/],
    ["__proto__ * N", /must hold only/],
    ["constructor * N", /must have names .* that mean nothing else, got "constructor"/],
    ["toString * N", /must have names/],
    ["import(a) * N", /must call no function but/],
    ["evaluate(a) * N", /must call no function but/],
    ["parse(a) * N", /must call no function but/],
    ["createUnit(a) * N", /must call no function but/],
    ["abs(a) * N", /must call no function but/],
    ["gamma(a) * N", /must call no function but/],
    ["exp * N", /must give exp its argument in brackets, got "exp \* N" at character 1/],
    ["a b * N", /must say \* for a product, got "b \* N" at character 3/],
    ["2N * a", /must say \* for a product/],
    ["(a)(N)", /must say \* for a product, got "\(N\)" at character 4/],
    ["5 cm * N", /must say \* for a product/],
    ["a mod N", /must say \* for a product/],
    ["a + b e^(-c * N)", /must say \* for a product/],
    ["a * e^(-c * N)", /must say exp\(...\) for powers of e, got "e\^\(-c \* N\)" at character 5/],
    ["exp(a, N)", /must have commas only between the two arguments of pow, got ", N\)" at character 6/],
    ["pow(a) * N", /must give pow two arguments, got "\) \* N" at character 6/],
    ["pow(a, b, N)", /must have commas only/],
    ["a, N", /must have commas only/],
    ["a * N)", /must open a bracket before it closes it, got "\)" at character 6/],
    ["a * (N", /must be one formula, got the end of the text at character 7/],
    ["a * * N", /must be one formula, got "\* N" at character 5/],
    ["a * N +", /must be one formula, got the end of the text/],
    ["a * () * N", /must be one formula/],
    ["1e999 * a * N", /must hold numbers that a double can hold/],
    ["a * 2", /must contain the practice, N \(options\.practice names another\), got "a \* 2"/],
    ["exp(-N)", /must have 1 to 12 parameters, got 0/],
    ["", /must be a formula of at most 400 characters, got 0/],
    [`a * N${" + 1".repeat(100)}`, /must be a formula of at most 400 characters, got 405/],
    [`${"(".repeat(30)}a * N${")".repeat(30)}`, /must have at most 24 brackets inside each other/],
    ["a+b+c+d+f+g+h+i+j+k+l+m+n+N", /must have 1 to 12 parameters, got 13/],
  ])("refuses %s", (text, message) => {
    expect(() => lawFromText(text)).toThrow(RangeError);
    expect(() => lawFromText(text)).toThrow(message);
  });

  it("refuses what is no text, and options that are none", () => {
    expect(() => lawFromText(7 as unknown as string)).toThrow(new TypeError("lawFromText: text must be a formula, got 7"));
    const law = (options: object) => () => lawFromText("a * N", options);
    expect(law({ practice: "N + 1" })).toThrow(/options\.practice must have names of letters/);
    expect(law({ practice: "exp" })).toThrow(RangeError);
    expect(law({ starts: { b: 1 } })).toThrow(/options\.starts must name parameters \(a\), got "b"/);
    expect(law({ starts: { a: "1" } })).toThrow(/options\.starts\.a must be a number/);
    expect(law({ starts: [] })).toThrow(/options\.starts must hold a start, got an empty list/);
    expect(law({ starts: [{ a: Number.NaN }] })).toThrow(/options\.starts\[0\]\.a must be finite, got NaN/);
    expect(law({ starts: 3 })).toThrow(TypeError);
    expect(law({ lower: { a: 2 }, upper: { a: 1 } })).toThrow(/options\.upper\.a must be above options\.lower\.a, got 1 and 2/);
    expect(law({ lower: { a: 2 }, starts: { a: 1 } })).toThrow(/options\.starts\.a must lie within its bounds, got 1/);
  });

  // pieces of every language that could be mistaken for a formula
  const PIECES = [
    ..."abNxe()[]{}+-*/^,.;:=<>!?&|%#@$'\"\\`~ \n\t0123456789",
    ..."exp( log( pow( sqrt( pi N N a 1e3 constructor __proto__ prototype import( createUnit( evaluate( parse( function => new this".split(
      " ",
    ),
    ..."process globalThis require( eval( true null undefined NaN Infinity in to mod and not i cm 0x10 f(x)=x".split(" "),
  ];
  test.prop([fc.array(fc.constantFrom(...PIECES), { maxLength: 30 })], { numRuns: 1000 })(
    "answers any run of pieces with a law or an error of its own",
    (pieces) => {
      const text = pieces.join("");
      try {
        const law = lawFromText(text);
        expect(typeof law.value(2, law.starts[0]!)).toBe("number");
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
        expect((error as Error).message).toMatch(/^lawFromText: text /);
      }
    },
  );

  test.prop([fc.string({ maxLength: 60, unit: "binary" })], { numRuns: 300 })("answers any string so", (text) => {
    try {
      lawFromText(text);
    } catch (error) {
      expect((error as Error).message).toMatch(/^lawFromText: text /);
    }
  });

  it("leaves the language as it was", () => {
    const before = Object.getOwnPropertyNames(Object.prototype).join();
    for (const text of ["__proto__.polluted = N", "constructor.constructor('return 1')() * N", "N.constructor", "a.toString() * N"]) {
      expect(() => lawFromText(text)).toThrow(RangeError);
    }
    expect(Object.getOwnPropertyNames(Object.prototype).join()).toBe(before);
  });
});
