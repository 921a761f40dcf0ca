import type { Session, Space } from "../../trace/types.js";
import { spaceName } from "./space-name.js";

/** The frame that all recordings of a session share; two in one session cannot be put into one figure. */
export function oneSpace(where: string, session: Session): Space {
  const { space } = session.recordings[0]!;
  const names = session.recordings.map((recording) => spaceName(recording.space));
  const other = names.findIndex((name) => name !== names[0]);
  if (other >= 0) {
    throw new RangeError(`${where}: session.recordings must share one space, got ${names[0]} and, at [${other}], ${names[other]}`);
  }
  return space;
}
