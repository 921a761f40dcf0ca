/** A share as a percentage in a sentence, to a whole percent. */
export function sayPercent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** Seconds in a sentence, to the hundredth. */
export function saySeconds(seconds: number): string {
  return `${seconds.toFixed(2)} s`;
}

/** A count with its noun, in the plural unless it is 1. */
export function sayCount(n: number, one: string, more: string = `${one}s`): string {
  return `${n} ${n === 1 ? one : more}`;
}

/** "a, b and c". */
export function sayList(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** Seconds in a sentence, to the millisecond. */
export function sayMilliseconds(seconds: number): string {
  return `${Math.round(1000 * seconds)} ms`;
}

/** Words at the beginning of a sentence. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
