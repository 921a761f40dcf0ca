import type { Session, Space } from "../../trace/types.js";

/** The frame that all recordings of a session share; two in one session cannot be put into one figure. */
export function oneSpace(where: string, session: Session): Space {
  const { space } = session.recordings[0]!;
  const other = session.recordings.findIndex((recording) => recording.space.kind !== space.kind || recording.space.unit !== space.unit);
  if (other >= 0) {
    const name = ({ kind, unit }: Space): string => `${kind} in ${unit}`;
    throw new RangeError(
      `${where}: session.recordings must share one space, got ${name(space)} and, at [${other}], ${name(session.recordings[other]!.space)}`,
    );
  }
  return space;
}
