import { analyze, type ExclusionRule, excludeTrials, pointingTrials } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

const RULES: readonly ExclusionRule[] = ["doublePress", "travelledTooLittle", "travelledTooFar", "beyondThreeSd"];
/** Invented faults among the trials: a time in seconds and a deviation in px. */
const FAULTS = [
  [0.05, 3],
  [0.07, -4],
  [0.45, -165],
  [1.02, 270],
  [0.82, 95],
] as const;

/** Simulated trials with invented faults among them, by time and deviation; those told by a rule have a shape of their own. */
export function spec(): object {
  const { recording } = simulateRecording({ seed: 23, movements: 80, targets: { amplitude: [240, 240], widths: [40] } });
  const { trials } = pointingTrials(analyze(recording), { condition: () => ({ amplitude: 240, width: 40 }) });
  const along = Float64Array.from([...trials.along, ...FAULTS.map(([, deviation]) => deviation)]);
  const movementTime = Float64Array.from([...trials.movementTime, ...FAULTS.map(([time]) => time)]);
  const amplitude = new Float64Array(along.length).fill(240);
  const width = new Float64Array(along.length).fill(40);
  const { excluded } = excludeTrials({ amplitude, width, movementTime, along }, RULES);
  const ruleOf = (i: number): string => RULES.find((rule) => excluded[rule].includes(i)) ?? "kept";
  const values = Array.from(along, (deviation, i) => ({ deviation, time: movementTime[i]!, rule: ruleOf(i) }));
  const domain = ["kept", ...RULES];
  const borders = [
    { at: -120, text: "half the amplitude covered" },
    { at: 240, text: "twice the amplitude covered" },
  ];
  const y = { type: "quantitative", title: "deviation along the axis, px", scale: { domain: [-200, 300], nice: false } };
  return {
    title: "80 simulated trials over 240 px with five invented faults, and the rule that tells each",
    width: 520,
    height: 300,
    layer: [
      {
        data: { values: borders },
        mark: { type: "rule", color: "#8a94a0", strokeDash: [4, 4] },
        encoding: { y: { ...y, field: "at" } },
      },
      {
        data: { values: borders },
        mark: { type: "text", align: "right", dy: -6, color: "#333b44" },
        encoding: { y: { ...y, field: "at" }, x: { datum: 1.4, type: "quantitative" }, text: { field: "text" } },
      },
      {
        data: { values: [{ at: 0.1 }] },
        mark: { type: "rule", color: "#8a94a0", strokeDash: [4, 4] },
        encoding: { x: { field: "at", type: "quantitative" } },
      },
      {
        data: { values: [{ at: 0.1, text: "0.1 s" }] },
        mark: { type: "text", align: "left", dx: 6, color: "#333b44" },
        encoding: { x: { field: "at", type: "quantitative" }, y: { ...y, datum: 190 }, text: { field: "text" } },
      },
      {
        data: { values },
        mark: { type: "point", size: 70, opacity: 0.8 },
        encoding: {
          x: { field: "time", type: "quantitative", title: "movement time, s", scale: { domain: [0, 1.4], nice: false } },
          y: { ...y, field: "deviation" },
          shape: {
            field: "rule",
            type: "nominal",
            title: null,
            scale: { domain, range: ["circle", "cross", "triangle-down", "triangle-up", "diamond"] },
          },
          color: {
            field: "rule",
            type: "nominal",
            title: null,
            scale: { domain, range: ["#6b7280", "#0b6bcb", "#d1580b", "#8a4bb3", "#b02a4c"] },
          },
        },
      },
    ],
  };
}
