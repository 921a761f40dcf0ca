/** The functions a formula may call, all smooth where they are defined. */
export const FUNCTION_NAMES: readonly string[] = ["exp", "log", "log10", "sqrt", "pow", "sin", "cos", "atan", "tanh"];

/**
 * The steps of a program; the place in this list is the code of a step. `powLog` is a^b log(a), the derivative of a^b
 * by b; `cosh` stands in the derivative of tanh.
 */
export const OPERATIONS = [
  "add",
  "subtract",
  "multiply",
  "divide",
  "negate",
  "exp",
  "pow",
  "log",
  "powLog",
  "sqrt",
  "log10",
  "sin",
  "cos",
  "atan",
  "tanh",
  "cosh",
] as const;

export type Operation = (typeof OPERATIONS)[number];

/** Numbers that a step takes up in a program: its code, the registers of its arguments, the register of its result. */
const STEP = 4;

/** Runs a program over its registers. Plain numbers as cases make a jump table, which names would not. */
export function runProgram(program: Int32Array, registers: Float64Array): void {
  for (let at = 0; at < program.length; at += STEP) {
    const a = registers[program[at + 1]!]!;
    const b = registers[program[at + 2]!]!;
    registers[program[at + 3]!] = operate(program[at]!, a, b);
  }
}

/** One step by its code; `b` is ignored by steps with one argument. */
export function operate(code: number, a: number, b: number): number {
  switch (code) {
    case 0:
      return a + b;
    case 1:
      return a - b;
    case 2:
      return a * b;
    case 3:
      return a / b;
    case 4:
      return -a;
    case 5:
      return Math.exp(a);
    case 6:
      return a ** b;
    case 7:
      return Math.log(a);
    case 8:
      // at a = 0 the limit, where the plain product would be 0 times minus infinity
      return a === 0 && b > 0 ? 0 : a ** b * Math.log(a);
    case 9:
      return Math.sqrt(a);
    case 10:
      return Math.log10(a);
    case 11:
      return Math.sin(a);
    case 12:
      return Math.cos(a);
    case 13:
      return Math.atan(a);
    case 14:
      return Math.tanh(a);
    case 15:
      return Math.cosh(a);
    default:
      return Number.NaN;
  }
}
