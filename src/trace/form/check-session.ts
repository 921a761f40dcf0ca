import type { Space } from "../types.js";
import { checkKnown, checkNumber, checkObject, checkOneOf, checkText } from "./check-fields.js";
import { EQUIPMENT_FIELDS } from "./entry-fields.js";
import { type Problem, problem, type Raw } from "./problem.js";

const PLANE_UNITS = ["px", "mm", "count"];
/** Date and time to the minute or finer, and an offset from UTC. */
const TIME_STAMP = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d([.,]\d+)?)?(Z|[+-]\d\d(:?\d\d)?)$/;

export function checkSession(raw: Raw): Problem | undefined {
  const { startedAt, equipment } = raw;
  const first =
    checkText(raw, [], "person") ??
    checkText(raw, [], "startedAt") ??
    (TIME_STAMP.test(startedAt as string)
      ? undefined
      : problem("badValue", ["startedAt"], "be a date, time and offset as in 2026-05-04T09:30:00+02:00", startedAt)) ??
    checkObject(equipment, ["equipment"]) ??
    checkKnown(equipment as Raw, ["equipment"], EQUIPMENT_FIELDS) ??
    checkText(equipment as Raw, ["equipment"], "id");
  if (first) return first;
  for (const key of EQUIPMENT_FIELDS) {
    if (key === "id") continue;
    const wrong = checkNumber(
      equipment as Raw,
      ["equipment"],
      key,
      key === "latency" ? { least: 0, optional: true } : { above: 0, optional: true },
    );
    // a session is worth keeping without a figure of its equipment
    if (wrong) return { ...wrong, clear: [["equipment", key]] };
  }
  return undefined;
}

/** The head of a recording: its space and device. */
export function checkHead(raw: Raw): Problem | undefined {
  const space = raw.space as Raw;
  return (
    checkObject(space, ["space"]) ??
    checkOneOf(space, ["space"], "kind", ["plane", "view"]) ??
    checkOneOf(space, ["space"], "unit", space.kind === "view" ? ["deg"] : PLANE_UNITS) ??
    checkKnown(space, ["space"], ["kind", "unit"]) ??
    checkText(raw, [], "device")
  );
}

/** A space in words. */
export function spaceText({ kind, unit }: Space): string {
  return `${kind} in ${unit}`;
}
