import type { FunctionNode, MathNode, OperatorNode, SymbolNode } from "mathjs/number";
import type { ExpressionGraph } from "../program/expression-graph.js";
import { FUNCTION_NAMES, type Operation } from "../program/operations.js";

/** Signs with two sides; anything else that a parser may know as an operator is refused. */
const SIGNS: ReadonlyMap<string, Operation> = new Map([
  ["add", "add"],
  ["subtract", "subtract"],
  ["multiply", "multiply"],
  ["divide", "divide"],
  ["pow", "pow"],
]);

/**
 * Takes a parsed formula, or a derivative of one, into the graph. The list of kinds of node is closed: numbers, the plain names of `readFormula`,
 * brackets, signs, and the functions allowed (and what derivatives of those hold).
 */
export function toGraph(tree: MathNode, graph: ExpressionGraph): number {
  const visit = (node: MathNode): number => toGraph(node, graph);
  const { type } = tree as MathNode & { readonly type: string };
  if (type === "ConstantNode") {
    const { value } = tree as MathNode & { readonly value: unknown };
    if (typeof value === "number" && Number.isFinite(value)) return graph.constant(value);
  }
  if (type === "SymbolNode") return symbol((tree as SymbolNode).name, graph);
  if (type === "ParenthesisNode") return visit((tree as MathNode & { readonly content: MathNode }).content);
  if (type === "OperatorNode") {
    const { fn, args, implicit } = tree as OperatorNode;
    if (fn === "unaryMinus" && args.length === 1) return graph.apply("negate", visit(args[0]!));
    if (fn === "unaryPlus" && args.length === 1) return visit(args[0]!);
    const sign = SIGNS.get(fn);
    if (sign !== undefined && args.length === 2 && !implicit) return graph.apply(sign, visit(args[0]!), visit(args[1]!));
    throw new RangeError(`must hold no sign but + - * / ^, got ${fn} of ${args.length}`);
  }
  if (type === "FunctionNode") {
    const { fn, args } = tree as FunctionNode;
    const name = (fn as MathNode & { readonly type: string }).type === "SymbolNode" ? fn.name : "";
    if (name === "pow" && args.length === 2) return graph.apply("pow", visit(args[0]!), visit(args[1]!));
    // the derivative of tanh
    if (name === "sech") return graph.apply("divide", graph.constant(1), graph.apply("cosh", visit(args[0]!)));
    if (name !== "pow" && FUNCTION_NAMES.includes(name) && args.length === 1) return graph.apply(name as Operation, visit(args[0]!));
    throw new RangeError(`must give ${name} ${name === "pow" ? "two arguments" : "one argument"}, got ${args.length}`);
  }
  throw new RangeError(`must be a formula without anything else, got a ${type}`);
}

// x is the practice, p0, p1, ... the parameters, k is pi
function symbol(name: string, graph: ExpressionGraph): number {
  if (name === "x") return graph.input(0);
  if (name === "k") return graph.constant(Math.PI);
  const [, number] = /^p(\d+)$/.exec(name) ?? [];
  if (number === undefined) throw new RangeError(`must hold no name but the practice, the parameters and pi, got ${name}`);
  return graph.input(1 + Number(number));
}
