/** 10^0 to 10^22: the powers of ten that a double holds exactly. */
const POWERS_OF_TEN = Float64Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));
/** From 2^53 on, not every whole number is a double. */
const WHOLE_LIMIT = 2 ** 53;

/** Shortest decimal text that reads back as the same double. Unlike in JSON.stringify, zero keeps its sign. */
export function numberText(value: number): string {
  return value === 0 && 1 / value < 0 ? "-0" : String(value);
}

/**
 * The double nearest to the decimal that stands in `text` from `start` to `end`, spaces around it allowed; `NaN` for anything else.
 * A whole number below 2^53 divided by an exact power of ten is rounded once, by the division, and so is right to the last bit
 * (Clinger 1990, "How to read floating point numbers accurately", recalled); the rest is left to `Number`.
 */
export function readDecimal(text: string, start: number, end: number): number {
  let pos = start;
  let last = end;
  while (pos < last && isBlank(text.charCodeAt(pos))) pos++;
  while (last > pos && isBlank(text.charCodeAt(last - 1))) last--;
  const from = pos;
  const sign = text.charCodeAt(pos);
  if (sign === 45 || sign === 43) pos++;
  const firstDigit = pos;
  let whole = 0;
  let point = -1;
  for (; pos < last; pos++) {
    const code = text.charCodeAt(pos);
    if (code >= 48 && code <= 57) whole = whole * 10 + (code - 48);
    else if (code === 46 && point < 0) point = pos;
    else break;
  }
  const digits = pos - firstDigit - (point < 0 ? 0 : 1);
  const decimals = point < 0 ? 0 : pos - point - 1;
  const plain = pos === last && digits > 0;
  if (plain && whole < WHOLE_LIMIT && decimals < POWERS_OF_TEN.length) {
    const size = whole / POWERS_OF_TEN[decimals]!;
    return sign === 45 ? -size : size;
  }
  const word = text.slice(from, last);
  return plain || /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?$/.test(word) ? Number(word) : Number.NaN;
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9;
}
