// Checks for the public entrances. Each message names the function, the argument, what is allowed and the value that came.

/** Throws unless `value` is a finite number within `[low, high]` (or above `low` when `open`). */
export function requireNumber(
  where: string,
  name: string,
  value: number,
  low: number = Number.NEGATIVE_INFINITY,
  high: number = Number.POSITIVE_INFINITY,
  open = false,
): void {
  if (typeof value !== "number") throw new TypeError(`${where}: ${name} must be a number, got ${show(value)}`);
  if (Number.isFinite(value) && (open ? value > low : value >= low) && value <= high) return;
  throw new RangeError(`${where}: ${name} must be ${range(low, high, open)}, got ${value}`);
}

/** Throws unless the option `seed` is a 32-bit integer, with a sign or without. */
export function requireSeed(where: string, seed: number): void {
  requireInteger(where, "options.seed", seed, -(2 ** 31), 2 ** 32 - 1);
}

/** Throws unless the option `level`, a confidence level, lies above 0 and below 1. */
export function requireLevel(where: string, level: number): void {
  if (!(level > 0 && level < 1)) throw new RangeError(`${where}: options.level must be above 0 and below 1, got ${show(level)}`);
}

/** Throws unless `value` is a whole number within `[low, high]`. */
export function requireInteger(where: string, name: string, value: number, low: number, high: number = Number.MAX_SAFE_INTEGER): void {
  if (typeof value !== "number") throw new TypeError(`${where}: ${name} must be a whole number, got ${show(value)}`);
  if (Number.isInteger(value) && value >= low && value <= high) return;
  throw new RangeError(`${where}: ${name} must be a whole number ${range(low, high, false)}, got ${value}`);
}

/** Throws unless `value` is one of `allowed`. */
export function requireOneOf<T extends string>(where: string, name: string, value: T, allowed: readonly T[]): void {
  if (allowed.includes(value)) return;
  throw new RangeError(`${where}: ${name} must be one of ${allowed.map((a) => `"${a}"`).join(", ")}, got ${show(value)}`);
}

/** Throws unless `column` is a `Float64Array` of finite numbers, `length` long when given. */
export function requireColumn(where: string, name: string, column: Float64Array, length?: number): void {
  if (!(column instanceof Float64Array)) throw new TypeError(`${where}: ${name} must be a Float64Array, got ${show(column)}`);
  if (length !== undefined && column.length !== length) {
    throw new RangeError(`${where}: ${name} must have ${length} entries like the other columns, got ${column.length}`);
  }
  for (let i = 0; i < column.length; i++) {
    const value = column[i]!;
    // a difference with itself is 0 only for finite numbers; cheaper than a call in a loop over millions
    if (value - value !== 0) throw new RangeError(`${where}: ${name}[${i}] must be finite, got ${value}`);
  }
}

/** Throws unless `value` is an object, of any shape. */
export function requireObject(where: string, name: string, value: unknown): void {
  if (value === null || typeof value !== "object") throw new TypeError(`${where}: ${name} must be an object, got ${show(value)}`);
}

/** A short picture of any value for a message. */
export function show(value: unknown): string {
  if (typeof value === "string") return JSON.stringify(value.length > 60 ? `${value.slice(0, 60)}...` : value);
  if (value === null || typeof value !== "object") return String(value);
  return Array.isArray(value) ? `an array of ${value.length}` : `an object of type ${value.constructor?.name ?? "Object"}`;
}

function range(low: number, high: number, open: boolean): string {
  const from = open ? "above" : "at least";
  if (low === Number.NEGATIVE_INFINITY && high === Number.POSITIVE_INFINITY) return "finite";
  if (high >= Number.MAX_SAFE_INTEGER) return `finite and ${from} ${low}`;
  return `${from} ${low} and at most ${high}`;
}
