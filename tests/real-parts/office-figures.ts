// The office-remote recordings in figures: movements without targets where the rate allows, and all presses.
import type { Outcome } from "../validation/figure.js";
import { distributionFigure, printed, shareFigure, valuesOf } from "./measure.js";
import { officeMeasures, officeRecordings } from "./office-movements.js";
import { officePresses } from "./office-presses.js";
import { recordingFacts } from "./reference.js";
import { spreadOf } from "./spread.js";

const OFFICE = "office-remote recordings (Fulop et al. 2016)";
const FACTS = "facts.json by NumPy";

/** Figures of the office-remote movements; skipped without the recordings. */
export function officeFigures(): Outcome[] {
  const recordings = officeRecordings();
  if (recordings.length === 0) return [{ name: "economy/office-remote movements", skipped: OFFICE }];
  return recordings.flatMap(({ name, segmentation, movements }): Outcome[] => {
    const overlaps = segmentation.movements.filter(
      (movement, i) => i > 0 && movement.onset < segmentation.movements[i - 1]!.end - 1e-9,
    ).length;
    const longer = movements.filter(({ movement, displacement }) => displacement > 1.01 * movement.pathLength).length;
    return [
      ...officeMeasures(name).map((measure) => distributionFigure(movements, measure, OFFICE)),
      {
        name: `movement/office-remote ${name} movements that begin before the one before has ended`,
        value: overlaps,
        bar: `= 0 of ${movements.length}`,
        ok: overlaps === 0,
        source: "definition: movements follow one another",
      },
      printed(
        `movement/office-remote ${name} movements whose ends lie farther apart than their path is long`,
        longer,
        `of ${movements.length}, by over 1 %`,
        OFFICE,
      ),
    ];
  });
}

/** Figures of the office-remote presses; skipped without the recordings. */
export function pressFigures(): Outcome[] {
  const presses = officePresses();
  if (presses.length === 0) return [{ name: "stopping/office-remote presses", skipped: OFFICE }];
  const clicks = presses.filter(({ click }) => click);
  const known: Record<string, { medianHold_ms: number }> = recordingFacts("office-remote").files;
  const names = Object.keys(known);
  const equal = names.filter((path) => {
    const own = presses.filter(({ recording }) => path === `traces/${recording}.csv`);
    return Math.abs(1000 * spreadOf(valuesOf(own, { of: ({ duration }) => duration })).q50 - known[path]!.medianHold_ms) < 1e-3;
  }).length;
  const held = "0.06 to 0.12 s (from memory)";
  return [
    distributionFigure(
      presses,
      { name: "stopping/office-remote press duration, all", unit: "s", of: ({ duration }) => duration, known: held },
      OFFICE,
    ),
    distributionFigure(
      clicks,
      { name: "stopping/office-remote press duration, clicks", unit: "s", of: ({ duration }) => duration, known: held },
      OFFICE,
    ),
    distributionFigure(clicks, { name: "stopping/office-remote slip of clicks", unit: "px", of: ({ slip }) => slip }, OFFICE),
    shareFigure("stopping/office-remote clicks that slip at all", clicks, ({ slip }) => slip > 0, OFFICE),
    shareFigure("stopping/office-remote clicks that slip over 4 px", clicks, ({ slip }) => slip > 4, OFFICE),
    shareFigure(
      "stopping/office-remote clicks held over 0.2 s",
      clicks,
      ({ duration }) => duration > 0.2,
      OFFICE,
      "such a press has no duration in its row",
    ),
    {
      name: "stopping/office-remote median press duration equal to the reference",
      value: equal,
      bar: `= ${names.length} files`,
      ok: equal === names.length,
      source: `${OFFICE}; ${FACTS}`,
    },
  ];
}
