/** Version of the language that the specifications are written in. */
const SCHEMA = "https://vega.github.io/schema/vega-lite/v6.json";

/** A plot as data: what it shows in words, and its Vega-Lite specification. */
export interface ChartSpec {
  readonly id: string;
  readonly title: string;
  /** Text alternative: what is shown, of how many, with the main figures. */
  readonly description: string;
  /** Plain JSON, data inline. */
  readonly spec: Readonly<Record<string, unknown>>;
}

/** Lightness steps that stay apart in print, and for people who see no colours; each goes with a shape, a dash or a label. */
export const INK = { dark: "#1b1f24", middle: "#57606a", light: "#8c959f", pale: "#c9d1d9", band: "#dfe4ea", paper: "#ffffff" } as const;

const CONFIG = {
  background: INK.paper,
  font: "sans-serif",
  padding: 8,
  view: { stroke: null },
  axis: {
    labelFontSize: 12,
    titleFontSize: 12,
    titleFontWeight: "normal",
    gridColor: "#e4e7eb",
    domainColor: INK.light,
    tickColor: INK.light,
  },
  legend: { labelFontSize: 12, titleFontSize: 12, titleFontWeight: "normal", orient: "bottom" },
  title: { anchor: "start", fontSize: 14, subtitleFontSize: 12, subtitleColor: INK.middle, subtitlePadding: 4 },
};

/** A specification with the one look that all charts share. */
export function chart(
  id: string,
  title: string,
  subtitle: string,
  description: string,
  body: Readonly<Record<string, unknown>>,
): ChartSpec {
  return {
    id,
    title,
    description,
    spec: { $schema: SCHEMA, title: { text: title, subtitle }, config: CONFIG, ...body },
  };
}

/** Seconds as milliseconds. */
export function ms(seconds: number): number {
  return 1000 * seconds;
}

/** At most so many entries, evenly taken, the first and the last among them. */
export function thinned<T>(entries: readonly T[], most: number): readonly T[] {
  if (entries.length <= most) return entries;
  return Array.from({ length: most }, (_, k) => entries[Math.round((k * (entries.length - 1)) / (most - 1))]!);
}
