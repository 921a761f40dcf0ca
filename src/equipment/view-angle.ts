import { requireNumber, requireObject, show } from "../math/require.js";

const WHERE = "viewAngle";
const DEG = 180;

/** A screen, the eye before it, and the picture on it. */
export interface ViewedScreen {
  /** Width and height of the picture, px, above 0. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Size of a pixel and distance of the eye, mm, above 0; both or none. With them angles at the eye are told. */
  readonly mmPerPx?: number;
  readonly viewDistanceMm?: number;
  /** Horizontal field of view of the drawn scene, degrees, above 0 and below 180. With it angles in the scene are told. */
  readonly fieldOfViewDeg?: number;
  /** Vertical field of view instead, where that is what is known. */
  readonly verticalFieldOfViewDeg?: number;
}

/** Options of `viewAngle`. */
export interface ViewAngleOptions {
  /** Distances from the middle of the picture, px, to be told as angles. Default none. */
  readonly px?: ArrayLike<number>;
  /** Angles from the middle, degrees within +-90, to be told as distances on the picture. Default none. */
  readonly deg?: ArrayLike<number>;
  /** Sizes of things in the middle of the picture, px, at least 0, to be told as the angle they span. Default none. */
  readonly sizePx?: ArrayLike<number>;
}

/** One kind of angle: that at the eye, or that in the drawn scene. */
export interface AngleScale {
  /** Distance of the eye (or of the scene's point of view) from the picture, px. */
  readonly distancePx: number;
  /** Angles that the whole picture spans. */
  readonly horizontalDeg: number;
  readonly verticalDeg: number;
  /** Degrees that a pixel spans in the middle, and at the left and right edge. */
  readonly degPerPxCentre: number;
  readonly degPerPxEdge: number;
  /** `options.px` as angles from the middle, and `options.deg` as distances. */
  readonly deg: readonly number[];
  readonly px: readonly number[];
  /** `options.sizePx` as the angle spanned, 2 atan(size/(2 distance)). */
  readonly sizeDeg: readonly number[];
}

/** What a picture spans. */
export interface ViewAngle {
  /** At the eye; `null` without pixel size and distance. */
  readonly visual: AngleScale | null;
  /** In the drawn scene; `null` without a field of view. */
  readonly scene: AngleScale | null;
  /** Degrees at the eye per degree in the scene, in the middle: 1 where the picture is seen as drawn; `null` unless both are known. */
  readonly magnification: number | null;
}

/**
 * Pixels as angles: those at the eye of somebody before the screen, and those in a scene drawn in perspective. The two differ, and neither grows evenly toward the edge.
 *
 * A plane at distance D (in pixels) shows an angle a from the middle at x = D tan a. At the eye D = viewing distance / pixel size; in a scene with horizontal field of view h on a
 * picture w wide D = (w/2)/tan(h/2), so that a pixel spans 180/(pi D) degrees in the middle and cos^2(h/2) times that at the edge; the vertical field is
 * 2 atan(tan(h/2) height/width). Field of view over width is none of these. Cost O(entries).
 *
 * @param screen - see `ViewedScreen`
 * @param options - see `ViewAngleOptions`
 * @returns the angles of both kinds, `null` where the screen does not tell them; plain data
 * @throws TypeError or RangeError if a number is out of range, or only one of pixel size and distance is given
 * @see geometry of a plane picture
 * @example
 * ```ts
 * const { visual, scene } = viewAngle({ widthPx: 1920, heightPx: 1080, mmPerPx: 0.2715, viewDistanceMm: 600, fieldOfViewDeg: 90 });
 * visual!.degPerPxCentre; // => 0.0259
 * scene!.degPerPxCentre; // => 0.0597
 * scene!.degPerPxEdge; // => 0.0298
 * ```
 */
export function viewAngle(screen: ViewedScreen, options: ViewAngleOptions = {}): ViewAngle {
  requireObject(WHERE, "screen", screen);
  const { widthPx, heightPx, mmPerPx, viewDistanceMm } = screen;
  requireNumber(WHERE, "screen.widthPx", widthPx, 0, undefined, true);
  requireNumber(WHERE, "screen.heightPx", heightPx, 0, undefined, true);
  if (mmPerPx !== undefined) requireNumber(WHERE, "screen.mmPerPx", mmPerPx, 0, undefined, true);
  if (viewDistanceMm !== undefined) requireNumber(WHERE, "screen.viewDistanceMm", viewDistanceMm, 0, undefined, true);
  if ((mmPerPx === undefined) !== (viewDistanceMm === undefined)) {
    const [missing, given] = mmPerPx === undefined ? ["mmPerPx", "viewDistanceMm"] : ["viewDistanceMm", "mmPerPx"];
    throw new RangeError(`${WHERE}: screen.${missing} must be given with ${given}, got undefined`);
  }
  const sceneDistance = sceneDistancePx(screen);
  requireObject(WHERE, "options", options);
  const px = column("px", options.px, Number.POSITIVE_INFINITY);
  const deg = column("deg", options.deg, DEG / 2);
  const sizePx = column("sizePx", options.sizePx, Number.POSITIVE_INFINITY, 0);
  const scaleAt = (distancePx: number): AngleScale => ({
    distancePx,
    horizontalDeg: 2 * angleAt(widthPx / 2, distancePx),
    verticalDeg: 2 * angleAt(heightPx / 2, distancePx),
    degPerPxCentre: toDeg(1 / distancePx),
    degPerPxEdge: toDeg(distancePx / (distancePx ** 2 + (widthPx / 2) ** 2)),
    // a negative zero would not survive JSON
    deg: px.map((x) => angleAt(x, distancePx) + 0),
    px: deg.map((angle) => distancePx * Math.tan((angle * Math.PI) / DEG) + 0),
    sizeDeg: sizePx.map((size) => 2 * angleAt(size / 2, distancePx)),
  });
  const visual = mmPerPx === undefined ? null : scaleAt(viewDistanceMm! / mmPerPx);
  const scene = sceneDistance === undefined ? null : scaleAt(sceneDistance);
  return { visual, scene, magnification: visual && scene && visual.degPerPxCentre / scene.degPerPxCentre };
}

/** Distance of the point of view from the picture, px, from whichever field of view is given. */
function sceneDistancePx({ widthPx, heightPx, fieldOfViewDeg, verticalFieldOfViewDeg }: ViewedScreen): number | undefined {
  if (fieldOfViewDeg !== undefined && verticalFieldOfViewDeg !== undefined) {
    throw new RangeError(
      `${WHERE}: screen.verticalFieldOfViewDeg must be left out where screen.fieldOfViewDeg is given, got ${verticalFieldOfViewDeg}`,
    );
  }
  const extents = [
    ["fieldOfViewDeg", fieldOfViewDeg, widthPx],
    ["verticalFieldOfViewDeg", verticalFieldOfViewDeg, heightPx],
  ] as const;
  for (const [name, field, extent] of extents) {
    if (field === undefined) continue;
    requireNumber(WHERE, `screen.${name}`, field, 0, DEG, true);
    if (field === DEG) throw new RangeError(`${WHERE}: screen.${name} must be below 180, got 180`);
    return extent / 2 / Math.tan((field * Math.PI) / (2 * DEG));
  }
  return undefined;
}

function angleAt(x: number, distance: number): number {
  return toDeg(Math.atan(x / distance));
}

function toDeg(radians: number): number {
  return (radians * DEG) / Math.PI;
}

function column(name: string, values: ArrayLike<number> | undefined, limit: number, least = -limit): number[] {
  if (values === undefined) return [];
  if (values === null || typeof values !== "object") throw new TypeError(`${WHERE}: options.${name} must be a column, got ${show(values)}`);
  return Array.from(values, (value, i) => {
    requireNumber(WHERE, `options.${name}[${i}]`, value, least, limit);
    // a right angle lies at no distance
    if (Math.abs(value) === limit)
      throw new RangeError(`${WHERE}: options.${name}[${i}] must be between -${limit} and ${limit}, got ${value}`);
    return value;
  });
}
