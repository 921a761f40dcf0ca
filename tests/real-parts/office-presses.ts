// Presses of all office-remote recordings: how long they were held, and how far the pointer went meanwhile.
import { type OfficeRow, officeRemoteNames, pressPairs, readOffice } from "../data/convert-office-remote.js";

/**
 * A click is a press of the left button, held for at most 0.4 s, whose release lies at most 10 px from it; what is held longer or goes farther is a drag, or was held
 * on purpose. Systems begin a drag at about 4 px (common practice, no source), so that a slip of 5 to 10 px may have dragged something without being meant to.
 * The recorder calls every move with a button held a drag: leaving those out would leave out every slip.
 */
const LONGEST_CLICK = 0.4;
const FARTHEST_SLIP = 10;

/** One press with its release. */
export interface OfficePress {
  readonly recording: string;
  readonly button: string;
  /** Press to release, seconds. */
  readonly duration: number;
  /** From press to release as recorded, px. */
  readonly slip: number;
  readonly click: boolean;
}

/** All released presses; none when the data are absent. */
export function officePresses(): OfficePress[] {
  return officeRemoteNames().flatMap((recording) =>
    pressPairs(readOffice(recording).rows).flatMap(({ press, release }) =>
      release === undefined ? [] : [describe(recording, press, release)],
    ),
  );
}

function describe(recording: string, press: OfficeRow, release: OfficeRow): OfficePress {
  const duration = (release.ms - press.ms) / 1000;
  const slip = Math.hypot(release.x - press.x, release.y - press.y);
  const click = press.button === "0" && duration <= LONGEST_CLICK && slip <= FARTHEST_SLIP;
  return { recording, button: press.button, duration, slip, click };
}
