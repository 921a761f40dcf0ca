import { detectPlateau } from "../../learning/detect-plateau.js";
import { fitLearningCurve } from "../../learning/fit-learning-curve.js";
import { SESSION_MEASURES, type SessionMeasure } from "../measures/session-measures.js";
import { sessionValues } from "../measures/session-values.js";
import type { MeasureCourse, SessionSummary } from "../types.js";

/** Sessions from which on a curve of three parameters is worth its name, and from which on a trend can be called flat. */
const SESSIONS_FOR_CURVE = 6;
const SESSIONS_FOR_PLATEAU = 8;
const SECONDS_PER_DAY = 86_400;

/** Every measure over the sessions of one stretch of equipment, in order. */
export function measureCourses(sessions: readonly SessionSummary[], level: number): MeasureCourse[] {
  return SESSION_MEASURES.map((measure) => courseOf(measure, sessions, level));
}

function courseOf(measure: SessionMeasure, sessions: readonly SessionSummary[], level: number): MeasureCourse {
  const start = Date.parse(sessions[0]!.startedAt);
  const values = sessionValues(
    sessions.map(({ rows }) => rows),
    measure,
  );
  const known = values.flatMap((value, i) =>
    value === undefined ? [] : [{ value, session: i + 1, day: (Date.parse(sessions[i]!.startedAt) - start) / 1000 / SECONDS_PER_DAY }],
  );
  const column = (name: "value" | "session" | "day"): number[] => known.map((one) => one[name]);
  const series = { session: column("session"), day: column("day"), value: column("value") };
  const { better, kind, worthwhile, unit } = measure;
  const counted = kind === "percent" && series.value.some((value) => !(value > 0)) ? undefined : { kind, worthwhile };
  return {
    measure: measure.name,
    label: measure.label,
    unit,
    ...series,
    ...(known.length >= SESSIONS_FOR_CURVE && {
      curve: fitLearningCurve({ practice: series.session, value: series.value }, { unit, level }),
    }),
    ...(known.length >= SESSIONS_FOR_PLATEAU &&
      counted && { plateau: detectPlateau({ day: series.day, value: series.value }, { better, unit, ...counted }) }),
  };
}
