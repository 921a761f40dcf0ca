// The measures of corrections, stopping, pressing and economy on real recordings: where their values lie, beside what others found. A bar stands where the data's
// own figures say what must come out, or where the word itself does (a movement does not overlap the next). Explained on docs/real-recordings.md.
import { officeFigures, pressFigures } from "../real-parts/office-figures.js";
import { pollingFigures } from "../real-parts/polling-figures.js";
import { reachFigures } from "../real-parts/reach-figures.js";
import type { Outcome } from "./figure.js";

/** One line per measure; `quick` simulates fewer movements. */
export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  return [...reachFigures(), ...pollingFigures(quick ? 200 : 2000), ...officeFigures(), ...pressFigures()];
}
