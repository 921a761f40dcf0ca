import { visible } from "../render/escape-html.js";

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

/** Made when asked for: a constant made of other constants would stay in every bundle. */
function look(): object {
  return {
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
    legend: { labelFontSize: 12, titleFontSize: 12, titleFontWeight: "normal", titleLimit: 400, labelLimit: 300, orient: "bottom" },
    title: { anchor: "start", fontSize: 14, subtitleFontSize: 12, subtitleColor: INK.middle, subtitlePadding: 4 },
  };
}

/** A specification with the one look that all charts share. Every text in it is made visible, since names come from outside. */
export function chart(
  id: string,
  title: string,
  subtitle: string,
  description: string,
  body: Readonly<Record<string, unknown>>,
): ChartSpec {
  const words = { title: visible(title), description: visible(description) };
  return {
    id: visible(id),
    ...words,
    spec: {
      $schema: SCHEMA,
      description: words.description,
      title: { text: words.title, subtitle: lines(visible(subtitle)) },
      config: look(),
      ...(plain(body) as Readonly<Record<string, unknown>>),
    },
  };
}

/** Lines of about so many characters: drawn without a page, letters count wider than they are, and one long line leaves white space beside the chart. */
const LINE = 56;

function lines(text: string): readonly string[] {
  const broken: string[] = [];
  for (const word of text.split(" ")) {
    const last = broken[broken.length - 1];
    if (last === undefined || last.length + 1 + word.length > LINE) broken.push(word);
    else broken[broken.length - 1] = `${last} ${word}`;
  }
  return broken;
}

/** In place of a drawing without data: axes without a range are drawn as nonsense, or not at all. */
export function blank(why: string): Readonly<Record<string, unknown>> {
  return {
    width: 420,
    height: 40,
    data: { values: [{ why }] },
    mark: { type: "text", align: "left", x: 0, fontSize: 12, color: INK.dark },
    encoding: { text: { field: "why" } },
  };
}

/** The same with visible texts, one zero, and no layer without data: such a layer has no range, and Vega complains of it. */
function plain(value: unknown): unknown {
  if (typeof value === "string") return visible(value);
  if (typeof value === "number") return value + 0;
  if (value === null || typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map(plain);
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, plain(name === "layer" ? inner.filter(hasData) : inner)]));
}

/** Layers without data of their own draw those of the whole. */
function hasData({ data }: { readonly data?: { readonly values: readonly unknown[] } }): boolean {
  return data === undefined || data.values.length > 0;
}

/** Names told apart: the second of a kind is numbered, or its bars would be laid upon those of the first. */
export function distinct(names: readonly string[]): string[] {
  const seen = new Set<string>();
  return names.map((name) => {
    const shown = visible(name);
    let one = shown;
    for (let k = 2; seen.has(one); k++) one = `${shown} (${k})`;
    seen.add(one);
    return one;
  });
}

/** Smallest and largest of values that may be too many for the arguments of one call. */
export function extent(values: Iterable<number>): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
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
