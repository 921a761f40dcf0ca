import { checkSession } from "./check-session.js";
import { readRows, type TableRow } from "./csv-rows.js";
import { EQUIPMENT_FIELDS, SCHEMA } from "./entry-fields.js";
import { type Problem, problem, type Raw } from "./problem.js";
import { placed, type Reading } from "./reading.js";
import type { SessionBuilder, SessionHead } from "./session-builder.js";

/** What is taken for what the session table does not state. */
const ASSUMED: Readonly<Record<string, string>> = { person: "unknown", startedAt: "1970-01-01T00:00:00Z", "equipment.id": "unknown" };
const EQUIPMENT_KEYS = EQUIPMENT_FIELDS.map((field) => `equipment.${field}`);

/** Reads the session table. Without one everything it would state is assumed. */
export function readSessionTable(reading: Reading, builder: SessionBuilder, text: string | undefined): void {
  const { person, startedAt } = ASSUMED;
  const raw: Raw = { person, startedAt, equipment: { id: ASSUMED["equipment.id"] } };
  const stated = new Set<string>();
  if (text !== undefined) {
    readRows(reading, "session", text, (row) => takeKey(raw, stated, row));
    const place = { file: `${reading.file}/session`, line: 1 };
    if (!stated.has("schema"))
      throw new RangeError(placed(place, 1, `table must have a row with key schema and value ${SCHEMA}, got none`));
  }
  for (const key of Object.keys(ASSUMED)) if (!stated.has(key)) reading.assumed.add(key);
  builder.head = raw as unknown as SessionHead;
}

function takeKey(raw: Raw, stated: Set<string>, row: TableRow): Problem | true {
  const key = row.text("key") ?? "";
  const known = ["schema", ...Object.keys(ASSUMED), ...EQUIPMENT_KEYS];
  if (!known.includes(key)) return problem("unknownField", ["key"], `be one of ${[...new Set(known)].join(", ")}`, key);
  if (stated.has(key)) return problem("duplicate", ["key"], "come once", "", { name: key, got: "it twice" });
  if (key === "schema") {
    if (row.number("value") !== SCHEMA)
      return problem("badValue", ["value"], `be ${SCHEMA}`, row.text("value"), { name: key, fatal: true });
    stated.add(key);
    return true;
  }
  const value = key in ASSUMED ? row.text("value") : row.number("value");
  if (value === undefined) return true;
  const name = key.replace("equipment.", "");
  const holder = name === key ? raw : (raw.equipment as Raw);
  const before = holder[name];
  holder[name] = value;
  // all else is in order, so what is wrong now is this
  const wrong = checkSession(raw);
  if (!wrong) {
    stated.add(key);
    return true;
  }
  if (before === undefined) delete holder[name];
  else holder[name] = before;
  return { ...wrong, path: ["value"], name: key };
}
