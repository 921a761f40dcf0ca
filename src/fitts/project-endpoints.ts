import { type PointColumns, requirePoints } from "./path/require-points.js";

/** Endpoints in the frame of their own movements: columns with one entry per trial that has an axis, in the order of the trials. */
export interface ProjectedEndpoints {
  /** Distance from start to target centre. */
  readonly amplitude: Float64Array;
  /** Endpoint minus target centre along the axis: positive beyond the centre, negative short of it. */
  readonly along: Float64Array;
  /** Endpoint minus target centre across the axis: positive to the left of travel as seen on the screen. */
  readonly across: Float64Array;
  /** Distance covered along the axis, `amplitude + along`. */
  readonly travelled: Float64Array;
  /** Index of each entry among the trials given. */
  readonly kept: readonly number[];
  /** Indices of the trials left out because start and target coincide: they have no direction. */
  readonly noAxis: readonly number[];
}

const WHERE = "projectEndpoints";

/**
 * Turns endpoints on the screen into what pointing trials are made of: errors along and across, and the distance covered.
 *
 * With u the unit vector from start to target centre and d the endpoint minus the target centre: along = d.u, across = d.v with
 * v = (u_y, -u_x), travelled = amplitude + along. For `PointingTrials` take `along` and `travelled` from here, width and movement time of the trials
 * in `kept`, and the NOMINAL amplitude of each condition: distances measured per trial would make every trial its own condition.
 * `from` decides what is measured. The previous target's centre gives the errors of the task as drawn; the previous
 * endpoint, where the pointer really started, adds the error of the trial before to the distance (the serial variant) and turns the axis a little.
 * Cost O(n).
 *
 * @param from - where each movement started; x to the right, y downward
 * @param to - the centre of its target
 * @param select - where the pointer was when the target was selected
 * @returns columns without the trials that have no axis, and the indices of both
 * @throws TypeError if an argument is of another kind; RangeError if columns differ in length or an entry is not finite
 * @see ISO 9241-411, Soukoreff and MacKenzie 2004 (projection on the task axis; recalled)
 * @example
 * ```ts
 * const from = { x: Float64Array.of(0, 300), y: Float64Array.of(0, 0) };
 * const to = { x: Float64Array.of(300, 0), y: Float64Array.of(0, 0) };
 * const select = { x: Float64Array.of(304, 9), y: Float64Array.of(3, 1) };
 * const { along, across, travelled } = projectEndpoints(from, to, select);
 * Array.from(along); // => [4, -9]
 * Array.from(across); // => [-3, 1]
 * Array.from(travelled); // => [304, 291]
 * ```
 */
export function projectEndpoints(from: PointColumns, to: PointColumns, select: PointColumns): ProjectedEndpoints {
  requirePoints(WHERE, "from", from);
  const n = from.x.length;
  requirePoints(WHERE, "to", to, n);
  requirePoints(WHERE, "select", select, n);
  const amplitude = new Float64Array(n);
  const along = new Float64Array(n);
  const across = new Float64Array(n);
  const travelled = new Float64Array(n);
  const kept: number[] = [];
  const noAxis: number[] = [];
  for (let i = 0; i < n; i++) {
    const ax = to.x[i]! - from.x[i]!;
    const ay = to.y[i]! - from.y[i]!;
    const a = Math.sqrt(ax * ax + ay * ay);
    if (a === 0) {
      noAxis.push(i);
      continue;
    }
    const ux = ax / a;
    const uy = ay / a;
    const dx = select.x[i]! - to.x[i]!;
    const dy = select.y[i]! - to.y[i]!;
    const k = kept.length;
    amplitude[k] = a;
    // plus 0: no negative zeros
    along[k] = dx * ux + dy * uy + 0;
    across[k] = dx * uy - dy * ux + 0;
    travelled[k] = a + along[k]!;
    if (!Number.isFinite(travelled[k]! + across[k]!))
      throw new RangeError(`${WHERE}: distances of trial ${i} must be finite, got Infinity`);
    kept.push(i);
  }
  const cut = (column: Float64Array): Float64Array => column.slice(0, kept.length);
  return { amplitude: cut(amplitude), along: cut(along), across: cut(across), travelled: cut(travelled), kept, noAxis };
}
