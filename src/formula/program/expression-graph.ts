import { OPERATIONS, type Operation, operate } from "./operations.js";

/** Terms and factors that many parameters share are many; a law of practice has a few dozen. */
const MOST_NODES = 4000;

/** A node: a constant, an input (0 is the practice, from 1 on the parameters), or an operation on nodes before it. */
export type GraphNode =
  | { readonly kind: "constant"; readonly value: number }
  | { readonly kind: "input"; readonly index: number }
  | { readonly kind: "step"; readonly operation: Operation; readonly a: number; readonly b: number };

/** Expressions that share what they have in common: a law and its derivatives, built up node by node. Nodes are known by their number. */
export interface ExpressionGraph {
  readonly nodes: readonly GraphNode[];
  readonly constant: (value: number) => number;
  readonly input: (index: number) => number;
  /** The node of an operation, after the simplifications that symbolic derivatives need: zeros, ones, signs and constants are worked in. */
  readonly apply: (operation: Operation, a: number, b?: number) => number;
}

export function createExpressionGraph(): ExpressionGraph {
  const nodes: GraphNode[] = [];
  const known = new Map<string, number>();

  function place(key: string, node: GraphNode): number {
    const old = known.get(key);
    if (old !== undefined) return old;
    if (nodes.length >= MOST_NODES) throw new RangeError("too large");
    known.set(key, nodes.length);
    return nodes.push(node) - 1;
  }
  const constant = (value: number): number => place(`constant ${value + 0}`, { kind: "constant", value: value + 0 });
  const input = (index: number): number => place(`input ${index}`, { kind: "input", index });
  const step = (operation: Operation, a: number, b: number): number => place(`${operation} ${a} ${b}`, { kind: "step", operation, a, b });

  /** Value of a constant, NaN for anything else. */
  function constantOf(at: number): number {
    const node = nodes[at]!;
    return node.kind === "constant" ? node.value : Number.NaN;
  }
  /** Argument of a negation, -1 for anything else. */
  function negated(at: number): number {
    const node = nodes[at]!;
    return node.kind === "step" && node.operation === "negate" ? node.a : -1;
  }

  function apply(operation: Operation, a: number, b = a): number {
    const [left, right] = [nodes[a]!, nodes[b]!];
    if (left.kind === "constant" && right.kind === "constant") {
      const value = operate(OPERATIONS.indexOf(operation), left.value, right.value);
      if (Number.isFinite(value)) return constant(value);
    }
    switch (operation) {
      case "add":
        return add(a, b);
      case "subtract":
        if (constantOf(b) === 0) return a;
        if (constantOf(a) === 0) return apply("negate", b);
        return negated(b) >= 0 ? apply("add", a, negated(b)) : step("subtract", a, b);
      case "negate":
        return negated(a) >= 0 ? negated(a) : step("negate", a, a);
      case "multiply":
        return multiply(a, b);
      case "divide":
        if (constantOf(a) === 0 || constantOf(b) === 1) return a;
        return negated(a) >= 0 ? apply("negate", apply("divide", negated(a), b)) : step("divide", a, b);
      case "pow":
        return pow(a, b);
      default:
        return step(operation, a, b);
    }
  }

  function add(a: number, b: number): number {
    if (constantOf(a) === 0) return b;
    if (constantOf(b) === 0) return a;
    if (negated(b) >= 0) return apply("subtract", a, negated(b));
    return negated(a) >= 0 ? apply("subtract", b, negated(a)) : step("add", a, b);
  }

  function multiply(a: number, b: number): number {
    for (const [factor, other] of [
      [a, b],
      [b, a],
    ] as const) {
      if (constantOf(factor) === 0 || constantOf(other) === 1) return factor;
      if (constantOf(factor) === -1) return apply("negate", other);
      if (negated(factor) >= 0) return apply("negate", apply("multiply", negated(factor), other));
      const { log, pow: joined } = joinLog(factor, other);
      if (log) return joined;
    }
    return step("multiply", a, b);
  }

  // a^b times log(a), wherever a^b stands among the factors of the other side, has a limit at a = 0 that the product lacks
  function joinLog(factor: number, product: number): { log: boolean; pow: number } {
    const node = nodes[factor]!;
    const joined = node.kind === "step" && node.operation === "log" ? replacePower(product, node.a) : -1;
    return { log: joined >= 0, pow: joined };
  }
  function replacePower(product: number, base: number): number {
    const node = nodes[product]!;
    if (node.kind !== "step") return -1;
    if (node.operation === "pow") return node.a === base ? step("powLog", base, node.b) : -1;
    if (node.operation !== "multiply") return -1;
    const left = replacePower(node.a, base);
    if (left >= 0) return apply("multiply", left, node.b);
    const right = replacePower(node.b, base);
    return right >= 0 ? apply("multiply", node.a, right) : -1;
  }

  function pow(a: number, b: number): number {
    const exponent = constantOf(b);
    if (exponent === 0 || constantOf(a) === 1) return constant(1);
    if (exponent === 1) return a;
    return exponent === 2 ? apply("multiply", a, a) : step("pow", a, b);
  }

  return { nodes, constant, input, apply };
}
