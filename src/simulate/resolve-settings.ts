import { requireInteger, requireNumber, requireObject, requireOneOf, requireSeed, show } from "../math/require.js";
import { checkDisplay } from "./check-display.js";
import { checkPlanning, requireSequence } from "./check-planning.js";
import { checkRecorder, requireBox } from "./check-recorder.js";
import type { SimulateRecordingOptions, SimulationSettings } from "./options.js";
import { requireRange } from "./require-range.js";

const BELLS = ["minimumJerk", "earlySkewed", "lateSkewed"] as const;

/** The fixed distributions of the recovery study; latency, pause and field are free there and chosen here as ordinary for a quick pointing task. */
const DEFAULTS: SimulationSettings = {
  seed: 1,
  movements: 400,
  sampleRateHz: 250,
  space: { kind: "plane" },
  sequence: 0,
  pause: [0.4, 0.8],
  tremorAmplitude: 0.3,
  targets: { amplitude: [150, 800], widths: [16, 24, 40, 64, 100], bounds: { width: 2000, height: 2000 }, speed: [0, 0] },
  latency: { mu: 0.2, sigma: 0.03, tau: 0.06 },
  primary: { bells: BELLS, alongBias: -0.03, alongSd: 0.05, acrossSd: 0.025, timeIntercept: 0.12, timeSlope: 0.05, timeSd: 0.08 },
  correction: {
    pureShare: 0.2,
    toleranceShare: 0.4,
    most: 4,
    gains: [0.7, 1, 1.25],
    gainSd: 0.08,
    directionSd: 0.06,
    duration: [0.1, 0.2],
    onset: [-0.1, 0.2],
  },
  press: { delay: 0.07, delaySd: 0.03, earlyShare: 0.03, earlyLead: 0.03, duration: 0.085, durationSd: 0.015, slipSd: 0.6 },
  cases: { timeout: 0, noMovement: 0, anticipation: 0, clutch: 0, retry: 0 },
  planning: {
    shortest: 0,
    nearest: 0,
    random: 0,
    overlapShare: 0,
    overlapLead: [0.02, 0.08],
    pullShare: 0,
    pull: 0.5,
    latencyPerBit: 0,
    hesitationShare: 0,
    hesitation: [0.4, 0.8],
    layouts: 0,
  },
  display: { refreshHz: null, latency: 0 },
  recorder: { timeJitterSd: 0.0005, timeQuantum: 0, quantum: 1, eventsOnly: true, dropShare: 0, mergeShare: 0, edges: null },
};

/** Fills in the defaults, as a fresh plain object, and checks every value. */
export function resolveSettings(where: string, options: SimulateRecordingOptions): SimulationSettings {
  requireObject(where, "options", options);
  for (const group of [
    "space",
    "targets",
    "latency",
    "primary",
    "correction",
    "press",
    "cases",
    "planning",
    "display",
    "recorder",
  ] as const) {
    const given: unknown = options[group];
    if (given !== undefined) requireObject(where, `options.${group}`, given);
  }
  const settings: SimulationSettings = {
    ...DEFAULTS,
    ...options,
    space:
      options.space?.kind === "view" ? { degreesPerUnit: 0.02, elevation: 0, ...options.space } : { ...(options.space ?? DEFAULTS.space) },
    targets: { ...DEFAULTS.targets, ...options.targets },
    latency: { ...DEFAULTS.latency, ...options.latency },
    primary: { ...DEFAULTS.primary, ...options.primary },
    correction: { ...DEFAULTS.correction, ...options.correction },
    press: { ...DEFAULTS.press, ...options.press },
    cases: { ...DEFAULTS.cases, ...options.cases },
    planning: { ...DEFAULTS.planning, ...options.planning },
    display: { ...DEFAULTS.display, ...options.display },
    recorder: { ...DEFAULTS.recorder, ...options.recorder },
  };
  checkGeneral(where, settings);
  checkTargets(where, settings);
  checkModels(where, settings);
  checkCases(where, settings);
  checkPlanning(where, settings);
  checkDisplay(where, settings.display);
  checkRecorder(where, settings.recorder);
  // the truth that echoes the settings must not share the caller's arrays
  return JSON.parse(JSON.stringify(settings));
}

function checkGeneral(where: string, settings: SimulationSettings): void {
  requireSeed(where, settings.seed);
  requireInteger(where, "options.movements", settings.movements, 1);
  requireNumber(where, "options.sampleRateHz", settings.sampleRateHz, 0, 1e6, true);
  requireSequence(where, settings.sequence);
  requireRange(where, "options.pause", settings.pause, 0);
  requireNumber(where, "options.tremorAmplitude", settings.tremorAmplitude, 0);
  const { space } = settings;
  requireOneOf(where, "options.space.kind", space.kind, ["plane", "view"]);
  if (space.kind === "plane") return;
  requireNumber(where, "options.space.degreesPerUnit", space.degreesPerUnit, 0, 90, true);
  const reach = (space.degreesPerUnit * settings.targets.bounds.height) / 2;
  if (reach >= 80) throw new RangeError(`${where}: the field must lie within 80 degrees of elevation, got half a height of ${reach}`);
  requireNumber(where, "options.space.elevation", space.elevation, reach - 80, 80 - reach);
  if (settings.recorder.edges !== null) throw new RangeError(`${where}: options.recorder.edges must be null in a view, got a box`);
}

function checkTargets(where: string, { targets }: SimulationSettings): void {
  requireRange(where, "options.targets.amplitude", targets.amplitude, 0, true);
  requireList(where, "options.targets.widths", targets.widths, 0);
  requireBox(where, "options.targets.bounds", targets.bounds);
  // half the shorter side is reached from anywhere along that side, in one direction or its mirror image
  const room = Math.max(targets.bounds.width, targets.bounds.height) / 2;
  if (targets.amplitude[0] > room) {
    throw new RangeError(
      `${where}: options.targets.amplitude[0] must be at most ${room}, half the longer side of the bounds, got ${targets.amplitude[0]}`,
    );
  }
  requireRange(where, "options.targets.speed", targets.speed, 0);
}

function checkModels(where: string, { latency, primary, correction, press }: SimulationSettings): void {
  requireNumber(where, "options.latency.mu", latency.mu, 0);
  requireNumber(where, "options.latency.sigma", latency.sigma, 0);
  requireNumber(where, "options.latency.tau", latency.tau, 0);
  if (!Array.isArray(primary.bells) || primary.bells.length === 0) {
    throw new TypeError(`${where}: options.primary.bells must be an array of at least one bell, got ${show(primary.bells)}`);
  }
  primary.bells.forEach((bell, i) => {
    requireOneOf(where, `options.primary.bells[${i}]`, bell, BELLS);
  });
  requireNumber(where, "options.primary.alongBias", primary.alongBias, -1, 1);
  requireNumber(where, "options.primary.alongSd", primary.alongSd, 0);
  requireNumber(where, "options.primary.acrossSd", primary.acrossSd, 0);
  requireNumber(where, "options.primary.timeIntercept", primary.timeIntercept, 0, 10, true);
  requireNumber(where, "options.primary.timeSlope", primary.timeSlope, 0, 10);
  requireNumber(where, "options.primary.timeSd", primary.timeSd, 0, 1);
  requireNumber(where, "options.correction.pureShare", correction.pureShare, 0, 1);
  requireNumber(where, "options.correction.toleranceShare", correction.toleranceShare, 0);
  requireInteger(where, "options.correction.most", correction.most, 0, 100);
  requireList(where, "options.correction.gains", correction.gains, 0);
  requireNumber(where, "options.correction.gainSd", correction.gainSd, 0, 1);
  requireNumber(where, "options.correction.directionSd", correction.directionSd, 0);
  requireRange(where, "options.correction.duration", correction.duration, 0, true);
  requireRange(where, "options.correction.onset", correction.onset, -10);
  requireNumber(where, "options.press.delay", press.delay, 0);
  requireNumber(where, "options.press.delaySd", press.delaySd, 0);
  requireNumber(where, "options.press.earlyShare", press.earlyShare, 0, 1);
  requireNumber(where, "options.press.earlyLead", press.earlyLead, 0, 0.1);
  requireNumber(where, "options.press.duration", press.duration, 0);
  requireNumber(where, "options.press.durationSd", press.durationSd, 0);
  requireNumber(where, "options.press.slipSd", press.slipSd, 0);
}

function checkCases(where: string, { cases, sequence, targets }: SimulationSettings): void {
  for (const name of ["timeout", "noMovement", "anticipation", "clutch", "retry"] as const) {
    requireNumber(where, `options.cases.${name}`, cases[name], 0, 1);
  }
  const sum = cases.timeout + cases.noMovement + cases.anticipation + cases.clutch;
  if (sum > 1) throw new RangeError(`${where}: options.cases without retry must add up to at most 1, got ${sum}`);
  const moving = targets.speed[1] > 0;
  if (cases.noMovement > 0 && (sequence !== 0 || moving)) {
    throw new RangeError(`${where}: options.cases.noMovement must be 0 in sequences and with moving targets, got ${cases.noMovement}`);
  }
  for (const name of ["clutch", "retry"] as const) {
    if (cases[name] > 0 && moving)
      throw new RangeError(`${where}: options.cases.${name} must be 0 with moving targets, got ${cases[name]}`);
  }
}

function requireList(where: string, name: string, list: readonly number[], above: number): void {
  if (!Array.isArray(list) || list.length === 0) {
    throw new TypeError(`${where}: ${name} must be an array of at least one number, got ${show(list)}`);
  }
  list.forEach((value, i) => {
    requireNumber(where, `${name}[${i}]`, value, above, undefined, true);
  });
}
