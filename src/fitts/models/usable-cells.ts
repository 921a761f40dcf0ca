import { requireNumber, requireObject, show } from "../../math/require.js";
import type { MovementTimeCell } from "./movement-time.js";

/** A cell with the amplitude and width that the law is to see. */
export interface UsableCell {
  /** Its place among the cells given. */
  readonly index: number;
  readonly cell: MovementTimeCell;
  readonly amplitude: number;
  readonly width: number;
}

export interface UsableCells {
  readonly usable: readonly UsableCell[];
  readonly leftOut: { readonly noEffectiveWidth: number; readonly noEffectiveAmplitude: number };
}

/** Largest ratio of amplitude and width, either way: beyond it squares of the predictors lose their digits, and nothing on a screen comes near. */
const LARGEST_RATIO = 1e9;
/** Longest movement time, seconds; a guard against squares that overflow. */
const LONGEST = 1e9;

/** Checks every cell, then keeps those that have the sizes asked for. */
export function usableCells(where: string, cells: readonly MovementTimeCell[], effective: boolean): UsableCells {
  if (!Array.isArray(cells)) throw new TypeError(`${where}: cells must be an array, got ${show(cells)}`);
  const usable: UsableCell[] = [];
  const leftOut = { noEffectiveWidth: 0, noEffectiveAmplitude: 0 };
  for (const [index, cell] of cells.entries()) {
    requireCell(where, `cells[${index}]`, cell);
    const amplitude = effective ? (cell.effectiveAmplitude ?? cell.amplitude) : cell.amplitude;
    const width = effective ? (cell.effectiveWidth ?? 0) : cell.width;
    if (!(amplitude > 0)) leftOut.noEffectiveAmplitude++;
    else if (!(width > amplitude / LARGEST_RATIO)) leftOut.noEffectiveWidth++;
    else usable.push({ index, cell, amplitude, width });
  }
  return { usable, leftOut };
}

/** Checks a pair of sizes. */
export function requireSizes(where: string, name: string, sizes: { readonly amplitude: number; readonly width: number }): void {
  requireObject(where, name, sizes);
  const { amplitude, width } = sizes;
  requireNumber(where, `${name}.amplitude`, amplitude, 0, undefined, true);
  requireNumber(where, `${name}.width`, width, 0, undefined, true);
  requireNumber(where, `${name}.amplitude / ${name}.width`, amplitude / width, 1 / LARGEST_RATIO, LARGEST_RATIO);
}

function requireCell(where: string, name: string, cell: MovementTimeCell): void {
  requireSizes(where, name, cell);
  requireNumber(where, `${name}.movementTime`, cell.movementTime, 0, LONGEST, true);
  if (cell.effectiveAmplitude !== undefined) requireNumber(where, `${name}.effectiveAmplitude`, cell.effectiveAmplitude);
  if (cell.effectiveWidth !== undefined && cell.effectiveWidth !== null) {
    requireNumber(where, `${name}.effectiveWidth`, cell.effectiveWidth, 0, undefined, true);
  }
  if (cell.n !== undefined) requireNumber(where, `${name}.n`, cell.n, 1);
}
