import type { Acquisition } from "../../movement/types.js";
import { kinematics } from "../../trace/kinematics.js";
import type { Recording } from "../../trace/types.js";
import { type ChartSpec, chart, INK, ms, thinned } from "./theme.js";

/** Seconds shown before go and after the end. */
const MARGIN = 0.1;
const MOST_POINTS = 2000;

/** Speed of the pointer during one acquisition, with its submovements, and the instants that divide its time. */
export function profileChart(recording: Recording, row: Acquisition): ChartSpec {
  const { go, onset, primaryEnd, stop, press, end } = row.times;
  const unit = recording.space.unit;
  const { segments } = kinematics(recording.trace, { space: recording.space });
  const points = segments.flatMap((segment, part) =>
    Array.from(segment.speed, (speed, i) => ({ t: segment.t0 + i / segment.sampleRateHz, speed, part })).filter(
      ({ t }) => t >= go - MARGIN && t <= end + MARGIN,
    ),
  );
  const drawn = thinned(points, MOST_POINTS).map(({ t, speed, part }) => ({ t: ms(t - go), speed, part }));
  const bells = row.submovements.map(({ start, end: over, peakSpeed }, i) => ({
    from: ms(start - go),
    to: ms(over - go),
    peak: peakSpeed,
    name: i === 0 ? "primary" : `correction ${i}`,
  }));
  const instants = labelled(
    Object.entries({ "target shown": go, onset, "primary ends": primaryEnd, stop, press }).flatMap(([name, t]) =>
      t === undefined ? [] : [{ t: ms(t - go), name }],
    ),
  );
  const x = (field = "t") => ({ field, type: "quantitative", title: "time since the target was shown, ms" });
  const y = { field: "speed", type: "quantitative", title: `speed, ${unit}/s` };
  return chart(
    "speed-profile",
    "One acquisition",
    `${row.submovements.length} submovements, the shaded stretches; ${row.outcome}`,
    `Speed of the pointer: ${instants.map(({ name, t }) => `${name} at ${t.toFixed(0)} ms`).join(", ")}; ${row.submovements.length} submovements${drawn.length < points.length ? `; ${drawn.length} of ${points.length} samples drawn` : ""}.`,
    {
      width: 520,
      height: 240,
      layer: [
        {
          data: { values: bells },
          mark: { type: "rect", color: INK.band, stroke: INK.paper, strokeWidth: 2 },
          encoding: { x: x("from"), x2: { field: "to" } },
        },
        {
          data: { values: drawn },
          mark: { type: "line", color: INK.dark, strokeWidth: 2 },
          encoding: { x: x(), y, detail: { field: "part" } },
        },
        { data: { values: instants }, mark: { type: "rule", color: INK.middle, strokeDash: [4, 3] }, encoding: { x: x() } },
        {
          data: { values: instants },
          mark: { type: "text", angle: 270, align: "right", dx: -4, dy: -5, fontSize: 11, color: INK.dark },
          encoding: { x: x(), y: { value: 0 }, text: { field: "name" } },
        },
      ],
    },
  );
}

/** Instants in order of time; those closer than a millisecond share a label. */
function labelled(instants: readonly { readonly t: number; readonly name: string }[]): { t: number; name: string }[] {
  const apart: { t: number; name: string }[] = [];
  for (const one of [...instants].sort((a, b) => a.t - b.t)) {
    const before = apart[apart.length - 1];
    if (before !== undefined && one.t - before.t < 1) before.name += `, ${one.name}`;
    else apart.push({ ...one });
  }
  return apart;
}
