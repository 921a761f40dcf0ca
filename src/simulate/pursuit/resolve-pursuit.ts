import { requireInteger, requireNumber, requireOneOf, requireSeed, show } from "../../math/require.js";
import { checkRecorder, requireBox } from "../check-recorder.js";
import { requireRange } from "../require-range.js";
import type { PursuitSettings, SimulatePursuitOptions } from "./options.js";

const GROUPS = ["space", "target", "follower", "catchUp", "noise", "reach", "display", "recorder"] as const;
/** Steeper than this the azimuth of a view turns too fast for its tangent plane, degrees. */
const STEEPEST = 80;

const DEFAULTS: PursuitSettings = {
  seed: 1,
  trials: 1,
  duration: 60,
  sampleRateHz: 250,
  space: { kind: "plane" },
  pause: [0.5, 1],
  target: {
    path: "multisine",
    linesX: [0.2, 0.5, 0.9, 1.3],
    linesY: [0.3, 0.7, 1.1],
    lineSpeed: 150,
    speed: [250, 250],
    leg: [0.9, 1.6],
    turnDeg: [120, 180],
    bounds: { width: 1600, height: 1000 },
    diameter: 60,
    scale: [1, 1],
    scaleHz: 0.11,
  },
  follower: { delay: 0.15, gain: 1, timeConstant: 0 },
  catchUp: { deadZone: 30, refractory: 0.17, gain: 1, gainSd: 0.1, duration: [0.12, 0.25] },
  noise: { sd: 4, bandHz: 1, sizeExponent: 0 },
  reach: { latency: [0.2, 0.3], duration: [0.25, 0.45] },
  display: { frameHz: 120, hold: true, latency: 0 },
  recorder: { timeJitterSd: 0.0005, timeQuantum: 0, quantum: 1, eventsOnly: true, dropShare: 0, mergeShare: 0, edges: null },
};

/** Fills in the defaults, as a fresh plain object, and checks every value. */
export function resolvePursuit(where: string, options: SimulatePursuitOptions): PursuitSettings {
  if (options === null || typeof options !== "object") throw new TypeError(`${where}: options must be an object, got ${show(options)}`);
  for (const group of GROUPS) {
    const given: unknown = options[group];
    if (given === undefined || (given !== null && typeof given === "object")) continue;
    throw new TypeError(`${where}: options.${group} must be an object, got ${show(given)}`);
  }
  const settings: PursuitSettings = {
    ...DEFAULTS,
    ...options,
    space:
      options.space?.kind === "view" ? { degreesPerUnit: 0.02, elevation: 0, ...options.space } : { ...(options.space ?? DEFAULTS.space) },
    target: { ...DEFAULTS.target, ...options.target },
    follower: { ...DEFAULTS.follower, ...options.follower },
    catchUp: { ...DEFAULTS.catchUp, ...options.catchUp },
    noise: { ...DEFAULTS.noise, ...options.noise },
    reach: { ...DEFAULTS.reach, ...options.reach },
    display: { ...DEFAULTS.display, ...options.display },
    recorder: { ...DEFAULTS.recorder, ...options.recorder },
  };
  checkGeneral(where, settings);
  checkTarget(where, settings);
  checkPerson(where, settings);
  checkDisplay(where, settings);
  checkRecorder(where, settings.recorder);
  if (settings.recorder.edges !== null) throw new RangeError(`${where}: options.recorder.edges must be null, got a box`);
  // the truth that echoes the settings must not share the caller's arrays
  return JSON.parse(JSON.stringify(settings));
}

function checkGeneral(where: string, { seed, trials, duration, sampleRateHz, space, pause, target }: PursuitSettings): void {
  requireSeed(where, seed);
  requireInteger(where, "options.trials", trials, 1);
  requireNumber(where, "options.duration", duration, 2, 3600);
  requireNumber(where, "options.sampleRateHz", sampleRateHz, 0, 1e6, true);
  requireRange(where, "options.pause", pause, 0);
  requireOneOf(where, "options.space.kind", space.kind, ["plane", "view"]);
  if (space.kind === "plane") return;
  requireNumber(where, "options.space.degreesPerUnit", space.degreesPerUnit, 0, 90, true);
  requireBox(where, "options.target.bounds", target.bounds);
  const reach = (space.degreesPerUnit * target.bounds.height) / 2;
  if (reach >= STEEPEST) throw new RangeError(`${where}: the field must lie within 80 degrees of elevation, got half a height of ${reach}`);
  requireNumber(where, "options.space.elevation", space.elevation, reach - STEEPEST, STEEPEST - reach);
}

function checkTarget(where: string, { target }: PursuitSettings): void {
  requireOneOf(where, "options.target.path", target.path, ["multisine", "randomWalk", "straight"]);
  for (const name of ["linesX", "linesY"] as const) {
    const lines = target[name];
    if (!Array.isArray(lines)) throw new TypeError(`${where}: options.target.${name} must be an array, got ${show(lines)}`);
    lines.forEach((hz, i) => {
      requireNumber(where, `options.target.${name}[${i}]`, hz, 0, 20, true);
    });
  }
  if (target.linesX.length + target.linesY.length === 0)
    throw new RangeError(`${where}: options.target.linesX and linesY must hold a line, got none`);
  requireNumber(where, "options.target.lineSpeed", target.lineSpeed, 0, undefined, true);
  requireRange(where, "options.target.speed", target.speed, 0, true);
  requireRange(where, "options.target.leg", target.leg, 0.01);
  requireRange(where, "options.target.turnDeg", target.turnDeg, 0);
  requireNumber(where, "options.target.turnDeg[1]", target.turnDeg[1], 0, 180);
  requireBox(where, "options.target.bounds", target.bounds);
  requireNumber(where, "options.target.diameter", target.diameter, 0, undefined, true);
  requireRange(where, "options.target.scale", target.scale, 0, true);
  requireNumber(where, "options.target.scaleHz", target.scaleHz, 0, 5, true);
}

function checkPerson(where: string, { follower, catchUp, noise, reach }: PursuitSettings): void {
  requireNumber(where, "options.follower.delay", follower.delay, 0, 2);
  requireNumber(where, "options.follower.gain", follower.gain, 0, 5);
  requireNumber(where, "options.follower.timeConstant", follower.timeConstant, 0, 5);
  if (catchUp.deadZone !== null) requireNumber(where, "options.catchUp.deadZone", catchUp.deadZone, 0, undefined, true);
  requireNumber(where, "options.catchUp.refractory", catchUp.refractory, 0.05, 10);
  requireNumber(where, "options.catchUp.gain", catchUp.gain, 0, 2);
  requireNumber(where, "options.catchUp.gainSd", catchUp.gainSd, 0, 1);
  requireRange(where, "options.catchUp.duration", catchUp.duration, 0.02);
  requireNumber(where, "options.noise.sd", noise.sd, 0);
  requireNumber(where, "options.noise.bandHz", noise.bandHz, 0, 50, true);
  requireNumber(where, "options.noise.sizeExponent", noise.sizeExponent, -3, 3);
  requireRange(where, "options.reach.latency", reach.latency, 0);
  requireRange(where, "options.reach.duration", reach.duration, 0.02);
}

function checkDisplay(where: string, { display }: PursuitSettings): void {
  requireNumber(where, "options.display.frameHz", display.frameHz, 1, 1000);
  if (typeof display.hold !== "boolean")
    throw new TypeError(`${where}: options.display.hold must be true or false, got ${show(display.hold)}`);
  requireNumber(where, "options.display.latency", display.latency, 0, 2);
}
