import type { ExpressionGraph, GraphNode } from "./expression-graph.js";
import { OPERATIONS, runProgram } from "./operations.js";

/** A law as numbers in, numbers out. */
export interface CompiledLaw {
  readonly value: (practice: number, parameters: ArrayLike<number>) => number;
  readonly gradient: (practice: number, parameters: ArrayLike<number>, out: Float64Array) => void;
}

/**
 * A law and its derivatives as flat lists of steps over one row of registers: what depends on the parameters alone runs when they change, the
 * derivatives run on what the value has left. Measured for an exponential of three parameters, value and gradient at 200 points: 22 us, as one
 * closure per node 29, as a tree of closures 35, written by hand 11.
 */
export function compileLaw(graph: ExpressionGraph, parameters: number, value: number, slopes: readonly number[]): CompiledLaw {
  const { nodes } = graph;
  const registers = new Float64Array(nodes.length);
  const inputs = new Int32Array(1 + parameters).fill(-1);
  // which nodes change with the practice; arguments always stand before what is made of them
  const varies = new Uint8Array(nodes.length);
  for (const [at, node] of nodes.entries()) {
    if (node.kind === "constant") registers[at] = node.value;
    else if (node.kind === "input") inputs[node.index] = at;
    varies[at] = node.kind === "step" ? varies[node.a]! | varies[node.b]! : Number(node.kind === "input" && node.index === 0);
  }
  const forValue = needed(nodes, [value]);
  const forSlopes = needed(nodes, slopes);
  const first = program(nodes, (at) => varies[at] === 0 && (forValue[at]! | forSlopes[at]!) !== 0);
  const second = program(nodes, (at) => varies[at] === 1 && forValue[at] !== 0);
  const third = program(nodes, (at) => varies[at] === 1 && forValue[at] === 0 && forSlopes[at] !== 0);
  // what the registers hold; a parameter that is not a number never equals itself and so is always taken anew
  const held = new Float64Array(1 + parameters).fill(Number.NaN);

  function load(practice: number, values: ArrayLike<number>): void {
    let same = true;
    for (let j = 1; j <= parameters; j++) {
      const now = values[j - 1]!;
      if (held[j] === now) continue;
      same = false;
      held[j] = now;
      registers[inputs[j]!] = now;
    }
    if (!same) runProgram(first, registers);
    if (same && held[0] === practice) return;
    held[0] = practice;
    registers[inputs[0]!] = practice;
    runProgram(second, registers);
  }

  return {
    value: (practice, values) => {
      load(practice, values);
      return registers[value]!;
    },
    gradient: (practice, values, out) => {
      load(practice, values);
      runProgram(third, registers);
      for (let j = 0; j < parameters; j++) out[j] = registers[slopes[j]!]!;
    },
  };
}

/** Marks the nodes that some of `ends` are made of, themselves included. */
function needed(nodes: readonly GraphNode[], ends: readonly number[]): Uint8Array {
  const marks = new Uint8Array(nodes.length);
  for (const end of ends) marks[end] = 1;
  for (let at = nodes.length - 1; at >= 0; at--) {
    const node = nodes[at]!;
    if (marks[at] === 0 || node.kind !== "step") continue;
    marks[node.a] = 1;
    marks[node.b] = 1;
  }
  return marks;
}

function program(nodes: readonly GraphNode[], wanted: (at: number) => boolean): Int32Array {
  const steps = nodes.flatMap((node, at) =>
    node.kind === "step" && wanted(at) ? [OPERATIONS.indexOf(node.operation), node.a, node.b, at] : [],
  );
  return Int32Array.from(steps);
}
