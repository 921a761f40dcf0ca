/** A count with its noun, in the plural unless there is one: "1 session", "3 sessions". */
export function countOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}
