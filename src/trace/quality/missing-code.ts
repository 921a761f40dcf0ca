/** What a device writes where it has no position: one number for either coordinate, or the pair that both must match. */
export type MissingCode = number | { readonly x: number; readonly y: number };

/** Whether a position is the code, where there is one. */
export function isMissingCode(code: MissingCode | undefined, x: number, y: number): boolean {
  if (code === undefined) return false;
  return typeof code === "number" ? x === code || y === code : x === code.x && y === code.y;
}
