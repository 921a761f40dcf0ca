import { checkKnown, checkNumber, checkObject, checkOneOf, checkText, type NumberRule } from "./check-fields.js";
import { type Problem, problem, type Raw } from "./problem.js";

// What an entry of a recording may be, for the readers and the writers alike. Each check answers with the first thing wrong.

const ABOVE_ZERO: NumberRule = { above: 0 };
const MAYBE: NumberRule = { optional: true };

export function checkPress(raw: Raw): Problem | undefined {
  const { t, x, y, credited } = raw;
  return (
    checkNumber(raw, [], "t") ??
    checkNumber(raw, [], "tUp", { least: t as number, from: "t", optional: true }) ??
    checkOneOf(raw, [], "by", ["button", "key", "wheel", "dwell", "touch"]) ??
    checkText(raw, [], "code", { optional: true }) ??
    checkNumber(raw, [], "x", y === undefined ? MAYBE : {}) ??
    checkNumber(raw, [], "y", x === undefined ? MAYBE : {}) ??
    (credited === null ? undefined : checkText(raw, [], "credited", { optional: true, filled: true }))
  );
}

/** A target but for the samples of its track. */
export function checkTarget(raw: Raw): Problem | undefined {
  const shape = raw.shape as Raw;
  const at = raw.at as Raw;
  return (
    checkText(raw, [], "id", { filled: true }) ??
    checkNumber(raw, [], "tShown") ??
    checkNumber(raw, [], "tGone", { least: raw.tShown as number, from: "tShown", optional: true }) ??
    checkObject(shape, ["shape"]) ??
    checkShape(shape) ??
    checkObject(at, ["at"]) ??
    ("t" in at ? checkKnown(at, ["at"], ["t", "x", "y", "scale"]) : checkStanding(at)) ??
    checkOneOf(raw, [], "role", ["goal", "distractor"], true)
  );
}

function checkShape(shape: Raw): Problem | undefined {
  const path = ["shape"];
  return (
    checkOneOf(shape, path, "kind", ["circle", "rect"]) ??
    (shape.kind === "circle"
      ? (checkKnown(shape, path, ["kind", "diameter"]) ?? checkNumber(shape, path, "diameter", ABOVE_ZERO))
      : (checkKnown(shape, path, ["kind", "width", "height", "angle"]) ??
        checkNumber(shape, path, "width", ABOVE_ZERO) ??
        checkNumber(shape, path, "height", ABOVE_ZERO) ??
        checkNumber(shape, path, "angle", MAYBE)))
  );
}

function checkStanding(at: Raw): Problem | undefined {
  return checkNumber(at, ["at"], "x") ?? checkNumber(at, ["at"], "y") ?? checkKnown(at, ["at"], ["x", "y"]);
}

/** `kindField` is the name under which the trial's kind stands. */
export function checkTrial(raw: Raw, kindField = "kind"): Problem | undefined {
  const { goals } = raw;
  const condition = raw.condition as Raw;
  const first =
    checkText(raw, [], "id", { filled: true }) ??
    checkOneOf(raw, [], kindField, ["acquire", "sequence", "pursue"]) ??
    checkNumber(raw, [], "tStart") ??
    checkNumber(raw, [], "tEnd", { least: raw.tStart as number, from: "tStart", optional: true }) ??
    checkText(raw, [], "block") ??
    (Array.isArray(goals) ? undefined : problem("badValue", ["goals"], "be a list of ids", goals)) ??
    checkObject(condition, ["condition"]);
  if (first) return first;
  for (const [i, goal] of (goals as unknown[]).entries()) {
    if (typeof goal !== "string") return problem("badValue", ["goals", i], "be the id of a target", goal);
  }
  for (const [name, value] of Object.entries(condition)) {
    if (typeof value === "string" || (typeof value === "number" && value - value === 0)) continue;
    return problem("badValue", ["condition", name], "be a text or a finite number", value);
  }
  return undefined;
}

/** `kindField` is the name under which the mark's kind stands. */
export function checkMark(raw: Raw, kindField = "kind"): Problem | undefined {
  return (
    checkNumber(raw, [], "t") ??
    checkNumber(raw, [], "tEnd", { least: raw.t as number, from: "t", optional: true }) ??
    checkOneOf(raw, [], kindField, ["gap", "lift", "edge", "hidden", "gain"])
  );
}
