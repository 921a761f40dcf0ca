// What a reader would trip over on a page, found by looking at it as the browser laid it out.
import type { Page } from "playwright-core";

/** Faults by kind; each kind is present, empty where all is well. */
export interface Faults {
  readonly "wider than the screen": string[];
  readonly "title, language, landmarks, headings": string[];
  readonly pictures: string[];
  readonly formulas: string[];
  readonly contrast: string[];
}

/** Looks at a loaded page; text must have at least this contrast to what lies behind it. */
export function lookAtPage(page: Page, contrast: number): Promise<Faults> {
  // one function, since it is sent to the page as text and knows nothing from here; the runner of this script wraps functions in a call of `__name`
  return page.evaluate(`globalThis.__name = (wrapped) => wrapped; (${look.toString()})(${contrast})`) as Promise<Faults>;
}

async function look(least: number): Promise<Faults> {
  const all = <E extends Element>(selector: string) => [...document.querySelectorAll<E>(selector)];
  const name = (element: Element) => `${element.tagName.toLowerCase()} "${(element.textContent ?? "").trim().slice(0, 40)}"`;
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;

  const structure: string[] = [];
  if (document.title.trim() === "") structure.push("no title");
  if (document.documentElement.lang !== "en") structure.push(`language "${document.documentElement.lang}"`);
  for (const role of ["header", "nav", "main, [role=main]"]) if (!document.querySelector(role)) structure.push(`no ${role}`);
  const description = document.querySelector<HTMLMetaElement>("meta[name=description]")?.content ?? "";
  if (description.length < 20) structure.push(`description "${description}"`);
  const headings = all<HTMLElement>("main :is(h1,h2,h3,h4,h5,h6), [role=main] :is(h1,h2,h3,h4,h5,h6)").filter(
    (heading) => heading.offsetParent,
  );
  const levels = headings.map((heading) => Number(heading.tagName[1]));
  if (levels.filter((level) => level === 1).length !== 1)
    structure.push(`${levels.filter((level) => level === 1).length} headings of the first level`);
  // pages of the reference begin their lists with small headings of typedoc's own
  const written = document.querySelector(".place") ? levels : [];
  for (const [at, level] of written.entries())
    if (level > (written[at - 1] ?? 0) + 1) structure.push(`out of order: ${name(headings[at]!)}`);

  for (const picture of all<HTMLImageElement>("img")) picture.loading = "eager";
  await Promise.all(all<HTMLImageElement>("img").map((picture) => picture.decode().catch(() => undefined)));
  const pictures = all<HTMLImageElement>("[role=main] img").flatMap((picture) => [
    ...(picture.naturalWidth === 0 ? [`not loaded: ${picture.src}`] : []),
    ...(picture.alt.length < 20 ? [`says little: "${picture.alt}"`] : []),
  ]);

  await document.fonts.ready;
  const formulas = all(".katex-error").map(name);
  for (const formula of all<HTMLElement>(".katex-html .base")) {
    if (formula.offsetParent !== null && formula.getBoundingClientRect().width === 0) formulas.push(`empty: ${name(formula)}`);
  }
  if (document.querySelector(".katex") && ![...document.fonts].some((font) => font.family.includes("KaTeX") && font.status === "loaded"))
    formulas.push("no font of KaTeX is loaded");
  for (const text of all("[role=main] :is(p, td, li)"))
    if (!text.querySelector("code, pre") && /(^|\s)\$[^$]+\$/.test(text.textContent ?? "") && !text.querySelector(".katex"))
      formulas.push(`not set: ${name(text)}`);

  const canvas = document.createElement("canvas").getContext("2d", { willReadFrequently: true })!;
  const rgb = (colour: string): number[] => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const behind = (element: Element | null): number[] => {
    for (let at = element; at; at = at.parentElement) {
      const colour = rgb(getComputedStyle(at).backgroundColor);
      if (colour[3]! > 0) return colour;
    }
    return [255, 255, 255, 255];
  };
  const luminance = (colour: readonly number[]) => {
    const [r, g, b] = colour
      .slice(0, 3)
      .map((part) => (part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const pale = new Map<string, string>();
  for (const element of all<HTMLElement>("[role=main] *")) {
    const own = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? "").trim() !== "");
    if (!own || element.offsetParent === null || element.closest(".katex-mathml, svg, button")) continue;
    const [light, dark] = [luminance(rgb(getComputedStyle(element).color)), luminance(behind(element))].sort((a, b) => b - a);
    const ratio = (light! + 0.05) / (dark! + 0.05);
    const kind = `${element.tagName.toLowerCase()}.${element.className}`;
    if (ratio < least && !pale.has(kind)) pale.set(kind, `${kind} ${ratio.toFixed(2)} ${name(element)}`);
  }

  return {
    "wider than the screen": wide > 0 ? [`by ${wide} px`] : [],
    "title, language, landmarks, headings": structure,
    pictures,
    formulas,
    contrast: [...pale.values()],
  };
}
