import { requireLevel, requireNumber, requireObject, show } from "../math/require.js";
import { type GainCurve, gainCurve, type MeasuredGain } from "./gain/gain-curve.js";

const WHERE = "controlGain";
const MM_PER_INCH = 25.4;
const TURN_DEG = 360;
/** Steps that the smallest target should hold, so that rounding does not decide. A choice. */
const STEPS_PER_TARGET = 10;

/** What is known of the way from the hand to the pointer; leave out what is not known. */
export interface ControlSettings {
  /** Counts that the device reports per inch of its own movement, above 0. */
  readonly countsPerInch?: number;
  /** Pixels that the pointer moves per count, above 0 (a pointer on a plane). */
  readonly pxPerCount?: number;
  /** Size of a pixel, mm, above 0. */
  readonly mmPerPx?: number;
  /** Degrees that the view turns per count, above 0 (a view that turns). */
  readonly degPerCount?: number;
  /** Smallest target: px with `pxPerCount`, degrees with `degPerCount`, above 0. */
  readonly targetWidth?: number;
  /** Movements measured with both ends, to tell whether gain depends on speed. */
  readonly measured?: MeasuredGain;
}

/** Options of `controlGain`. */
export interface ControlGainOptions {
  /** Confidence level of the exponent's interval, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** How far the pointer goes for a movement of the hand. A field is `null` where its parts are not known, or where gain is not constant. */
export interface ControlGain {
  /** Pointer displacement over device displacement, both in mm: no unit. */
  readonly gain: number | null;
  /** Pixels, or degrees, per mm of the device. */
  readonly pxPerMm: number | null;
  readonly degPerMm: number | null;
  /** Movement of the device for a full turn of the view, mm. */
  readonly mmPerTurn: number | null;
  /** Counts for a full turn. */
  readonly countsPerTurn: number | null;
  /** Smallest step of the pointer, px or degrees, and steps in the smallest target; at least 10 keep rounding out of the result. */
  readonly step: number | null;
  readonly stepsPerTarget: number | null;
  readonly fineEnough: boolean | null;
  /** Gain against speed as measured; `null` without measured movements. */
  readonly curve: GainCurve | null;
  /** Gain changes with speed (acceleration): no distance stands for a turn, and the settings alone tell no gain. */
  readonly accelerated: boolean;
  /** Why distances and gains are given or refused, one sentence. */
  readonly reason: string;
}

/**
 * From the hand to the pointer: control-display gain, distance per turn of the view, smallest step against the target, and whether gain depends on speed.
 *
 * gain = pxPerCount mmPerPx countsPerInch / 25.4; mm per turn = 360 / degPerCount 25.4 / countsPerInch; gain at a speed: pointer over device displacement, its exponent
 * the slope of log gain on log speed. When that is not 0, distances per turn and a single gain are refused. Cost O(n log n) in the measured movements.
 *
 * @param settings - what is known, see `ControlSettings`
 * @param options - see `ControlGainOptions`
 * @returns gains, distances and steps, `null` where the settings do not tell them; plain data
 * @throws TypeError or RangeError if a number is not above 0, measured columns differ in length, or an option is out of range
 * @see definition of control-display gain and what it does to pointing: Casiez, Vogel, Balakrishnan and Cockburn 2008 (abstract); the rest is arithmetic
 * @example
 * ```ts
 * const { mmPerTurn, countsPerTurn } = controlGain({ countsPerInch: 800, degPerCount: 0.05 });
 * mmPerTurn; // => 228.6
 * countsPerTurn; // => 7200
 * ```
 */
export function controlGain(settings: ControlSettings, options: ControlGainOptions = {}): ControlGain {
  requireObject(WHERE, "settings", settings);
  for (const field of ["countsPerInch", "pxPerCount", "mmPerPx", "degPerCount", "targetWidth"] as const) {
    if (settings[field] !== undefined) requireNumber(WHERE, `settings.${field}`, settings[field], 0, undefined, true);
  }
  requireObject(WHERE, "options", options);
  const { level = 0.95 } = options;
  requireLevel(WHERE, level);
  const { countsPerInch, pxPerCount, mmPerPx, degPerCount, targetWidth, measured } = settings;
  if (measured !== undefined) requireMeasured(measured);
  const curve = measured === undefined ? null : gainCurve(measured, level);
  const accelerated = curve?.constant === false;
  const known = (value: number | undefined): number | null => (value === undefined || accelerated ? null : value);
  const countsPerMm = countsPerInch === undefined ? undefined : countsPerInch / MM_PER_INCH;
  const product = (...factors: readonly (number | undefined)[]): number | undefined =>
    factors.reduce((all, factor) => (all === undefined || factor === undefined ? undefined : all * factor), 1);
  const countsPerTurn = degPerCount === undefined ? undefined : TURN_DEG / degPerCount;
  const step = pxPerCount ?? degPerCount;
  const stepsPerTarget = step === undefined || targetWidth === undefined ? null : targetWidth / step;
  return {
    gain: known(product(pxPerCount, mmPerPx, countsPerMm)),
    pxPerMm: known(product(pxPerCount, countsPerMm)),
    degPerMm: known(product(degPerCount, countsPerMm)),
    mmPerTurn: known(countsPerTurn === undefined || countsPerMm === undefined ? undefined : countsPerTurn / countsPerMm),
    countsPerTurn: known(countsPerTurn),
    step: step ?? null,
    stepsPerTarget,
    fineEnough: stepsPerTarget === null ? null : stepsPerTarget >= STEPS_PER_TARGET,
    curve,
    accelerated,
    reason: reasonOf(curve),
  };
}

function reasonOf(curve: GainCurve | null): string {
  if (curve === null) return "No movements were measured: gain is taken to be the same at every speed.";
  if (curve.constant === true) return "Gain was the same at every speed measured.";
  if (curve.constant === null)
    return "The movements measured do not tell whether gain depends on speed: gains and distances hold only if it does not.";
  return "Gain depends on speed, so that no one distance of the hand stands for a turn, and no one gain for the whole: see the curve.";
}

function requireMeasured(measured: MeasuredGain): void {
  requireObject(WHERE, "settings.measured", measured);
  const { device, pointer, duration } = measured;
  for (const [name, column] of Object.entries({ device, pointer, duration })) {
    if (column === null || typeof column !== "object")
      throw new TypeError(`${WHERE}: settings.measured.${name} must be a column, got ${show(column)}`);
    if (column.length !== device.length) {
      throw new RangeError(`${WHERE}: settings.measured.${name} must have ${device.length} entries like device, got ${column.length}`);
    }
    for (let i = 0; i < column.length; i++) requireNumber(WHERE, `settings.measured.${name}[${i}]`, column[i]!, 0, undefined, true);
  }
}
