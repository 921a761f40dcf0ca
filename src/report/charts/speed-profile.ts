import type { Acquisition } from "../../movement/types.js";
import { kinematics } from "../../trace/kinematics.js";
import type { Recording } from "../../trace/types.js";
import { countOf } from "../count-of.js";
import { type ChartSpec, chart, INK, ms, thinned } from "./theme.js";

/** Instants closer than this share of the time shown have one label, or their names would cover each other. */
const CLOSE = 0.025;
/** Seconds shown before go and after the end. */
const MARGIN = 0.1;
const MOST_POINTS = 2000;

/** Speed of the pointer during one acquisition, with its submovements, and the instants that divide its time. */
export function profileChart(recording: Recording, row: Acquisition): ChartSpec {
  const { go, onset, primaryEnd, stop, press, end } = row.times;
  const unit = recording.space.unit;
  const { segments } = kinematics(recording.trace, { space: recording.space });
  const points = segments.flatMap(({ t0, sampleRateHz, speed }, part) => {
    const first = Math.max(0, Math.ceil((go - MARGIN - t0) * sampleRateHz));
    const last = Math.min(speed.length - 1, Math.floor((end + MARGIN - t0) * sampleRateHz));
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => ({
      t: t0 + (first + k) / sampleRateHz,
      speed: speed[first + k]!,
      part,
    }));
  });
  const drawn = thinned(points, MOST_POINTS).map(({ t, speed, part }) => ({ t: ms(t - go), speed, part }));
  const bells = row.submovements.map(({ start, end: over, peakSpeed }, i) => ({
    from: ms(start - go),
    to: ms(over - go),
    peak: peakSpeed,
    middle: ms((start + over) / 2 - go),
    number: String(i + 1),
  }));
  const deciding = press !== undefined && end > press && row.outcome === "recovered" ? end : undefined;
  const named = { "target shown": go, onset, "primary ends": primaryEnd, stop, press, "deciding press": deciding };
  const instants = Object.entries(named).flatMap(([name, t]) => (t === undefined ? [] : [{ t: ms(t - go), name }]));
  const labels = labelled(instants, CLOSE * ms(end - go + 2 * MARGIN));
  const x = (field = "t") => ({ field, type: "quantitative", title: "time since the target was shown, ms" });
  const y = { field: "speed", type: "quantitative", title: `speed, ${unit}/s` };
  return chart(
    "speed-profile",
    "One acquisition",
    `${countOf(row.submovements.length, "submovement")}, the shaded and numbered stretches; ${row.outcome}`,
    `Speed of the pointer: ${instants.map(({ name, t }) => `${name} at ${t.toFixed(0)} ms`).join(", ")}; ${countOf(row.submovements.length, "submovement")}${drawn.length < points.length ? `; ${drawn.length} of ${points.length} samples drawn` : ""}.${points.length === 0 ? " No speed can be told from this recording." : ""}`,
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
          data: { values: bells },
          mark: { type: "text", baseline: "top", dy: 4, fontSize: 11, color: INK.dark },
          encoding: { x: x("middle"), y: { value: 0 }, text: { field: "number" } },
        },
        {
          data: { values: drawn },
          mark: { type: "line", color: INK.dark, strokeWidth: 2 },
          encoding: { x: x(), y, detail: { field: "part" } },
        },
        { data: { values: instants }, mark: { type: "rule", color: INK.middle, strokeDash: [4, 3] }, encoding: { x: x() } },
        {
          data: { values: labels },
          mark: { type: "text", angle: 270, align: "right", dx: -4, dy: -7, fontSize: 11, color: INK.dark },
          encoding: { x: x(), y: { value: 0 }, text: { field: "name" } },
        },
      ],
    },
  );
}

/** Labels in order of time; instants closer to a label than `close` share it. */
function labelled(instants: readonly { readonly t: number; readonly name: string }[], close: number): { t: number; name: string }[] {
  const apart: { t: number; name: string }[] = [];
  for (const one of [...instants].sort((a, b) => a.t - b.t)) {
    const before = apart[apart.length - 1];
    if (before !== undefined && one.t - before.t < close) before.name += `, ${one.name}`;
    else apart.push({ ...one });
  }
  return apart;
}
