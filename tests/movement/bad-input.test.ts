// The whole text of every message: it names the function, the argument, what is allowed and the value that came.
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { createAnalyzer } from "../../src/movement/create-analyzer.js";
import { decomposeSubmovements } from "../../src/movement/decompose-submovements.js";
import { detectSubmovements } from "../../src/movement/detect-submovements.js";
import { holdTremor } from "../../src/movement/hold-tremor.js";
import { idleMovement } from "../../src/movement/idle-movement.js";
import { logDimensionlessJerk } from "../../src/movement/log-dimensionless-jerk.js";
import { pointingTrials } from "../../src/movement/pointing-trials.js";
import { segmentMovements } from "../../src/movement/segment-movements.js";
import { spectralArcLength } from "../../src/movement/spectral-arc-length.js";
import { stopProfile } from "../../src/movement/stop-profile.js";
import { summarize } from "../../src/movement/summarize.js";
import { toTable } from "../../src/movement/to-table.js";
import { trialToTrialLearning } from "../../src/movement/trial-to-trial-learning.js";
import { variabilityProfile } from "../../src/movement/variability-profile.js";
import { compose } from "./bells.js";
import { REACH } from "./hand-made.js";
import { errorOf, rowOf } from "./rows.js";

// what is not of the stated type is the point here
// biome-ignore lint/suspicious/noExplicitAny: wrong arguments
type Any = any;

const profile = compose([{ onset: 0.1, duration: 0.3, amplitude: 100, directionDeg: 20 }], 250, 125);
const n = profile.speed.length;
const column = (): Float64Array => new Float64Array(n).fill(1);
const nan = (at: number): Float64Array => column().map((v, i) => (i === at ? Number.NaN : v));
const pressed = rowOf(0, { latency: 0.2, primary: 0.3, verification: 0.1 }, { errors: { press: errorOf(1, 0) } });
const velocity = { x: column(), y: column() };

/** Calls with one wrong argument each, in the form [what is called, its whole message]. */
type Case = readonly [call: (wrong: Any) => unknown, wrong: unknown, kind: typeof TypeError | typeof RangeError, message: string];

const detect = (options: Any) => detectSubmovements(profile, options);
const detectOf = (more: Any) => detectSubmovements({ ...profile, ...more });
const decompose = (options: Any) => decomposeSubmovements(profile, options);
const decomposeOf = (more: Any) => decomposeSubmovements({ ...profile, ...more });
const jerk = (options: Any) => logDimensionlessJerk(velocity, { sampleRateHz: 100, ...options });
const arc = (options: Any) => spectralArcLength(column(), { sampleRateHz: 100, ...options });
const stops = (options: Any) => stopProfile(REACH, [], options);
const sum = (options: Any) => summarize([pressed], options);
const trials = (options: Any) => pointingTrials([pressed], options);
const spread = (options: Any) => variabilityProfile(REACH, [], options);
const segment = (options: Any) => segmentMovements(REACH.trace, options);
const analyzer = (options: Any) => createAnalyzer(REACH.space, options);

const CASES: readonly Case[] = [
  [detect, { noiseFloor: -1 }, RangeError, "detectSubmovements: options.noiseFloor must be finite and at least 0, got -1"],
  [detect, { noiseFloor: "1" }, TypeError, 'detectSubmovements: options.noiseFloor must be a number, got "1"'],
  [detect, { quantum: -0.5 }, RangeError, "detectSubmovements: options.quantum must be finite and at least 0, got -0.5"],
  [detect, { prominenceShare: 0 }, RangeError, "detectSubmovements: options.prominenceShare must be above 0 and at most 1, got 0"],
  [detect, { prominenceShare: 1.1 }, RangeError, "detectSubmovements: options.prominenceShare must be above 0 and at most 1, got 1.1"],
  [detect, { minSpacing: -0.1 }, RangeError, "detectSubmovements: options.minSpacing must be at least 0 and at most 1, got -0.1"],
  [detect, { minSpacing: 1.5 }, RangeError, "detectSubmovements: options.minSpacing must be at least 0 and at most 1, got 1.5"],
  [detectOf, { t0: Number.NaN }, RangeError, "detectSubmovements: profile.t0 must be finite, got NaN"],
  [detectOf, { sampleRateHz: 0 }, RangeError, "detectSubmovements: profile.sampleRateHz must be finite and above 0, got 0"],
  [detectSubmovements, undefined, TypeError, "detectSubmovements: profile must be an object, got undefined"],
  [detectOf, { x: new Float64Array(3) }, RangeError, "detectSubmovements: profile.x must have 125 entries like the other columns, got 3"],
  [detectOf, { y: nan(4) }, RangeError, "detectSubmovements: profile.y[4] must be finite, got NaN"],
  [detectOf, { speed: [1, 2] }, TypeError, "detectSubmovements: profile.speed must be a Float64Array, got an array of 2"],

  [
    decomposeSubmovements,
    null,
    TypeError,
    "decomposeSubmovements: profile must be an even velocity profile with t0, sampleRateHz, vx, vy, got null",
  ],
  [
    decomposeSubmovements,
    7,
    TypeError,
    "decomposeSubmovements: profile must be an even velocity profile with t0, sampleRateHz, vx, vy, got 7",
  ],
  [decomposeOf, { t0: "0" }, TypeError, 'decomposeSubmovements: profile.t0 must be a number, got "0"'],
  [decomposeOf, { sampleRateHz: 0 }, RangeError, "decomposeSubmovements: profile.sampleRateHz must be finite and above 0, got 0"],
  [decomposeOf, { vx: nan(7) }, RangeError, "decomposeSubmovements: profile.vx[7] must be finite, got NaN"],
  [
    decomposeOf,
    { vy: new Float64Array(9) },
    RangeError,
    "decomposeSubmovements: profile.vy must have 125 entries like the other columns, got 9",
  ],
  [
    decompose,
    { bell: "round" },
    RangeError,
    'decomposeSubmovements: options.bell must be one of "minimumJerk", "lognormal", "either", got "round"',
  ],
  [
    decompose,
    { maxComponents: 0 },
    RangeError,
    "decomposeSubmovements: options.maxComponents must be a whole number at least 1 and at most 20, got 0",
  ],
  [
    decompose,
    { maxComponents: 21 },
    RangeError,
    "decomposeSubmovements: options.maxComponents must be a whole number at least 1 and at most 20, got 21",
  ],
  [
    decompose,
    { starts: -1 },
    RangeError,
    "decomposeSubmovements: options.starts must be a whole number at least 0 and at most 100, got -1",
  ],
  [
    decompose,
    { starts: 101 },
    RangeError,
    "decomposeSubmovements: options.starts must be a whole number at least 0 and at most 100, got 101",
  ],
  [
    decompose,
    { seed: 0.5 },
    RangeError,
    "decomposeSubmovements: options.seed must be a whole number at least -2147483648 and at most 4294967295, got 0.5",
  ],
  [
    decompose,
    { residualShare: -0.1 },
    RangeError,
    "decomposeSubmovements: options.residualShare must be at least 0 and at most 1, got -0.1",
  ],
  [decompose, { residualShare: 1.1 }, RangeError, "decomposeSubmovements: options.residualShare must be at least 0 and at most 1, got 1.1"],
  [decompose, { noiseFloor: -2 }, RangeError, "decomposeSubmovements: options.noiseFloor must be finite and at least 0, got -2"],
  [decompose, { cutoffHz: 0 }, RangeError, "decomposeSubmovements: options.cutoffHz must be finite and above 0, got 0"],
  [
    decompose,
    { minDuration: 0.01 },
    RangeError,
    "decomposeSubmovements: options.minDuration must be at least 0.02 and at most 10, got 0.01",
  ],
  [decompose, { minDuration: 11 }, RangeError, "decomposeSubmovements: options.minDuration must be at least 0.02 and at most 10, got 11"],
  [
    decompose,
    { minDuration: 0.5, maxDuration: 0.4 },
    RangeError,
    "decomposeSubmovements: options.maxDuration must be at least 0.5 and at most 10, got 0.4",
  ],
  [decompose, { maxDuration: 11 }, RangeError, "decomposeSubmovements: options.maxDuration must be at least 0.08 and at most 10, got 11"],

  [(v) => logDimensionlessJerk(v, { sampleRateHz: 100 }), null, TypeError, "logDimensionlessJerk: velocity must be an object, got null"],
  [(o) => logDimensionlessJerk(velocity, o), 5, TypeError, "logDimensionlessJerk: options must be an object, got 5"],
  [
    (v) => logDimensionlessJerk({ ...velocity, ...v }, { sampleRateHz: 100 }),
    { x: [0] },
    TypeError,
    "logDimensionlessJerk: velocity.x must be a Float64Array, got an array of 1",
  ],
  [
    (v) => logDimensionlessJerk({ ...velocity, ...v }, { sampleRateHz: 100 }),
    { y: new Float64Array(4) },
    RangeError,
    "logDimensionlessJerk: velocity.y must have 125 entries like the other columns, got 4",
  ],
  [jerk, { sampleRateHz: 0 }, RangeError, "logDimensionlessJerk: options.sampleRateHz must be finite and above 0, got 0"],
  [
    jerk,
    { form: "speed" },
    RangeError,
    'logDimensionlessJerk: options.form must be one of "velocity", "acceleration", "amplitude", got "speed"',
  ],

  [
    (s) => spectralArcLength(s, { sampleRateHz: 100 }),
    [1],
    TypeError,
    "spectralArcLength: speed must be a Float64Array, got an array of 1",
  ],
  [(o) => spectralArcLength(column(), o), undefined, TypeError, "spectralArcLength: options must be an object, got undefined"],
  [arc, { sampleRateHz: 0 }, RangeError, "spectralArcLength: options.sampleRateHz must be finite and above 0, got 0"],
  [arc, { maxHz: 0 }, RangeError, "spectralArcLength: options.maxHz must be finite and above 0, got 0"],
  [arc, { threshold: 0 }, RangeError, "spectralArcLength: options.threshold must be above 0 and at most 1, got 0"],
  [arc, { threshold: 1.01 }, RangeError, "spectralArcLength: options.threshold must be above 0 and at most 1, got 1.01"],
  [arc, { padLevel: 1.5 }, RangeError, "spectralArcLength: options.padLevel must be a whole number at least 0 and at most 10, got 1.5"],
  [arc, { padLevel: 11 }, RangeError, "spectralArcLength: options.padLevel must be a whole number at least 0 and at most 10, got 11"],

  [segment, { enterSpeed: 0 }, RangeError, "segmentMovements: options.enterSpeed must be finite and above 0, got 0"],
  [segment, { mergeGap: -1 }, RangeError, "segmentMovements: options.mergeGap must be at least 0 and at most 10, got -1"],
  [segment, { mergeGap: 11 }, RangeError, "segmentMovements: options.mergeGap must be at least 0 and at most 10, got 11"],
  [segment, { minQuanta: -1 }, RangeError, "segmentMovements: options.minQuanta must be finite and at least 0, got -1"],
  [segment, { cutoffHz: 0 }, RangeError, "segmentMovements: options.cutoffHz must be finite and above 0, got 0"],

  [(r) => stopProfile(r, []), null, TypeError, "stopProfile: recording must be an object, got null"],
  [(r) => stopProfile(REACH, r), {}, TypeError, "stopProfile: rows must be an array of acquisitions, got an object of type Object"],
  [stops, { level: 1 }, RangeError, "stopProfile: options.level must be above 0 and below 1, got 1"],
  [stops, { resamples: 98 }, RangeError, "stopProfile: options.resamples must be a whole number at least 99 and at most 100000, got 98"],
  [
    stops,
    { resamples: 100001 },
    RangeError,
    "stopProfile: options.resamples must be a whole number at least 99 and at most 100000, got 100001",
  ],
  [
    stops,
    { seed: -(2 ** 31) - 1 },
    RangeError,
    "stopProfile: options.seed must be a whole number at least -2147483648 and at most 4294967295, got -2147483649",
  ],

  [(r) => idleMovement(r, []), "it", TypeError, 'idleMovement: recording must be an object, got "it"'],
  [(r) => idleMovement(REACH, r), 3, TypeError, "idleMovement: rows must be an array of acquisitions, got 3"],
  [(o) => idleMovement(REACH, [], o), { level: 0 }, RangeError, "idleMovement: options.level must be above 0 and below 1, got 0"],
  [(o) => idleMovement(REACH, [], o), { maxGap: -1 }, RangeError, "idleMovement: options.maxGap must be finite and at least 0, got -1"],

  [(r) => holdTremor(r), undefined, TypeError, "holdTremor: recording must be an object, got undefined"],
  [(r) => holdTremor(REACH, r), 3, TypeError, "holdTremor: rows must be an array of acquisitions, got 3"],
  [(trace) => holdTremor({ ...REACH, trace }), 3, TypeError, "holdTremor: recording.trace must be a trace with columns t, x, y, got 3"],
  [(o) => holdTremor(REACH, [], o), { level: 1 }, RangeError, "holdTremor: options.level must be above 0 and below 1, got 1"],
  [(o) => holdTremor(REACH, [], o), { maxGap: -1 }, RangeError, "holdTremor: options.maxGap must be finite and at least 0, got -1"],

  [summarize, "rows", TypeError, 'summarize: rows must be an array of acquisitions, got "rows"'],
  [summarize, {}, TypeError, "summarize: rows must be an array of acquisitions, got an object of type Object"],
  [sum, { level: 0 }, RangeError, "summarize: options.level must be above 0 and below 1, got 0"],
  [sum, { correctionTimeLaw: 4 }, TypeError, "summarize: options.correctionTimeLaw must be an object, got 4"],
  [
    sum,
    { correctionTimeLaw: { intercept: "a", slope: 1 } },
    TypeError,
    'summarize: options.correctionTimeLaw.intercept must be a number, got "a"',
  ],
  [
    sum,
    { correctionTimeLaw: { intercept: 1, slope: Number.NaN } },
    RangeError,
    "summarize: options.correctionTimeLaw.slope must be finite, got NaN",
  ],
  [sum, { span: [Number.NaN, 1] }, RangeError, "summarize: options.span[0] must be finite, got NaN"],
  [sum, { span: [0, -1] }, RangeError, "summarize: options.span[1] must be finite and at least 0, got -1"],
  [sum, { span: [0, 0.5] }, RangeError, "summarize: options.span must cover all rows, from 0 to 0.6, got 0 to 0.5"],
  [sum, { span: [0.1, 2] }, RangeError, "summarize: options.span must cover all rows, from 0 to 0.6, got 0.1 to 2"],

  [pointingTrials, 5, TypeError, "pointingTrials: rows must be an array of acquisitions, got 5"],
  [trials, { time: "late" }, RangeError, 'pointingTrials: options.time must be one of "goToPress", "onsetToPress", got "late"'],
  [trials, { condition: 4 }, TypeError, "pointingTrials: options.condition must be a function, got 4"],
  [
    trials,
    { condition: () => ({ amplitude: 0, width: 1 }) },
    RangeError,
    "pointingTrials: options.condition must give amplitude above 0 for rows[0], got 0",
  ],
  [
    trials,
    { condition: () => ({ amplitude: 5, width: Number.POSITIVE_INFINITY }) },
    RangeError,
    "pointingTrials: options.condition must give width above 0 for rows[0], got Infinity",
  ],
  [
    trials,
    { condition: () => undefined },
    RangeError,
    "pointingTrials: options.condition must give amplitude above 0 for rows[0], got undefined",
  ],

  [(r) => variabilityProfile(r, []), null, TypeError, "variabilityProfile: recording must be an object, got null"],
  [(r) => variabilityProfile(REACH, r), 2, TypeError, "variabilityProfile: rows must be an array of acquisitions, got 2"],
  [spread, { steps: 1 }, RangeError, "variabilityProfile: options.steps must be a whole number at least 2 and at most 1000, got 1"],
  [spread, { steps: 1001 }, RangeError, "variabilityProfile: options.steps must be a whole number at least 2 and at most 1000, got 1001"],
  [spread, { level: 2 }, RangeError, "variabilityProfile: options.level must be above 0 and below 1, got 2"],

  [toTable, "rows", TypeError, 'toTable: rows must be an array of acquisitions, got "rows"'],

  [
    trialToTrialLearning,
    "1 2",
    TypeError,
    'trialToTrialLearning: errors must be a list of numbers (null where one is not known), got "1 2"',
  ],
  [
    trialToTrialLearning,
    new DataView(new ArrayBuffer(8)),
    TypeError,
    "trialToTrialLearning: errors must be a list of numbers (null where one is not known), got an object of type DataView",
  ],
  [
    trialToTrialLearning,
    { length: 3 },
    TypeError,
    "trialToTrialLearning: errors must be a list of numbers (null where one is not known), got an object of type Object",
  ],
  [trialToTrialLearning, [1, "2"], TypeError, 'trialToTrialLearning: errors[1] must be a number or null, got "2"'],
  [
    trialToTrialLearning,
    [1, null, Number.NaN],
    RangeError,
    "trialToTrialLearning: errors[2] must be finite (null where it is not known), got NaN",
  ],
  [(o) => trialToTrialLearning([1], o), { level: 1 }, RangeError, "trialToTrialLearning: options.level must be above 0 and below 1, got 1"],

  [createAnalyzer, 1, TypeError, "createAnalyzer: space must be an object with a kind, got 1"],
  [createAnalyzer, { kind: "wall" }, RangeError, 'createAnalyzer: space.kind must be one of "plane", "view", got "wall"'],
  [analyzer, { sampleRateHz: 1001 }, RangeError, "createAnalyzer: options.sampleRateHz must be above 0 and at most 1000, got 1001"],
  [analyzer, { quantum: -1 }, RangeError, "createAnalyzer: options.quantum must be finite and above 0, got -1"],
  [analyzer, { cutoffHz: 401 }, RangeError, "createAnalyzer: options.cutoffHz must be at least 4 and at most 400, got 401"],
  [analyzer, { maxGap: 11 }, RangeError, "createAnalyzer: options.maxGap must be at least 0 and at most 10, got 11"],
  [analyzer, { prominenceShare: 2 }, RangeError, "createAnalyzer: options.prominenceShare must be above 0 and at most 1, got 2"],
  [analyzer, { minSpacing: 2 }, RangeError, "createAnalyzer: options.minSpacing must be at least 0 and at most 1, got 2"],
];

describe("messages about bad input", () => {
  it.each(CASES.map(([call, wrong, kind, message]) => [message, call, wrong, kind] as const))("%s", (message, call, wrong, kind) => {
    expect(() => call(wrong)).toThrow(new kind(message));
    expect(() => call(wrong)).toThrow(kind);
  });

  // the ends of every stated range are allowed
  it.each([
    [detect, { noiseFloor: 0, quantum: 0, prominenceShare: 1, minSpacing: 0 }],
    [detect, { minSpacing: 1 }],
    [decompose, { maxComponents: 1, starts: 0, residualShare: 0, noiseFloor: 0, minDuration: 0.02, maxDuration: 10 }],
    [decompose, { maxComponents: 20, starts: 1, residualShare: 1, minDuration: 0.3, maxDuration: 0.3, seed: 2 ** 32 - 1 }],
    [arc, { threshold: 1, padLevel: 0 }],
    [arc, { padLevel: 10 }],
    [segment, { mergeGap: 0, minQuanta: 0 }],
    [segment, { mergeGap: 10 }],
    [stops, { resamples: 99, seed: -(2 ** 31) }],
    [sum, { span: [0, 0.6] }],
    [spread, { steps: 2 }],
    [spread, { steps: 1000 }],
    [analyzer, { sampleRateHz: 1000, cutoffHz: 4, maxGap: 0, prominenceShare: 1, minSpacing: 0 }],
    [analyzer, { cutoffHz: 400, maxGap: 10, minSpacing: 1 }],
  ] as readonly (readonly [(options: Any) => unknown, object])[])("nothing is said of the ends of a range (%#)", (call, options) => {
    expect(() => call(options)).not.toThrow();
  });
});

describe("messages about chunks and recordings", () => {
  const trace = { t: new Float64Array(0), x: new Float64Array(0), y: new Float64Array(0) };
  const push = (more: Any) => createAnalyzer(REACH.space).push({ trace, ...more });
  const one = (value: Float64Array | undefined) => ({ t: Float64Array.of(1), x: Float64Array.of(0), y: Float64Array.of(0), scale: value });
  const aim = REACH.targets[0]!;
  const task = REACH.trials[0]!;
  it.each([
    [{ presses: {} }, TypeError, "createAnalyzer: chunk.presses must be a list, got an object of type Object"],
    [{ targets: 4 }, TypeError, "createAnalyzer: chunk.targets must be a list, got 4"],
    [{ trials: "a" }, TypeError, 'createAnalyzer: chunk.trials must be a list, got "a"'],
    [{ marks: true }, TypeError, "createAnalyzer: chunk.marks must be a list, got true"],
    [{ until: "now" }, TypeError, 'createAnalyzer: chunk.until must be a number, got "now"'],
    [{ presses: [5] }, TypeError, "createAnalyzer: chunk.presses[0] must be an object, got 5"],
    [{ presses: [{ by: "button" }] }, TypeError, "createAnalyzer: chunk.presses[0].t must be a number, got nothing"],
    [{ marks: [{ t: 1, kind: "edge", tEnd: 0 }] }, RangeError, "createAnalyzer: chunk.marks[0].tEnd must be at least t = 1, got 0"],
    [{ targets: [aim, { ...aim, tShown: "0" }] }, TypeError, 'createAnalyzer: chunk.targets[1].tShown must be a number, got "0"'],
    [{ targets: [{ ...aim, at: trace }] }, RangeError, "createAnalyzer: chunk.targets[0].at must have a sample, got none"],
    [
      { targets: [{ ...aim, at: one(Float64Array.of(-1)) }] },
      RangeError,
      "createAnalyzer: chunk.targets[0].at.scale[0] must be above 0, got -1",
    ],
    [
      { targets: [{ ...aim, at: one(new Float64Array(2)) }] },
      RangeError,
      "createAnalyzer: chunk.targets[0].at.scale must have 1 entries like the other columns, got 2",
    ],
    [
      { targets: [{ ...aim, shape: { kind: "circle", diameter: 4, colour: 1 } }] },
      RangeError,
      'createAnalyzer: chunk.targets[0].field must be one of kind, diameter, got "colour"',
    ],
    [{ trials: [{ ...task, tEnd: 0 }] }, RangeError, "createAnalyzer: chunk.trials[0].tEnd must be at least tStart = 0.2, got 0"],
  ] as const)("%o", (more, kind, message) => {
    expect(() => push(more)).toThrow(new (kind as typeof TypeError)(message));
    expect(() => push(more)).toThrow(kind);
  });

  it("name a trial whose goal was never shown, by the end it had", () => {
    const trials = [{ ...task, goals: ["b"] }];
    expect(() => analyze({ ...REACH, trials })).toThrow(
      new RangeError('createAnalyzer: trial "trial" must name targets that were shown by its end, got "b"'),
    );
  });
});
