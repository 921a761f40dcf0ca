// Pages carry no front matter, so that they read well as plain files: the first heading is the title, the first sentence the description, and the
// contents say where a page stands and what comes before and after it.
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import {
  type Application,
  Converter,
  type DefaultThemeRenderContext,
  type DocumentReflection,
  JSX,
  PageEvent,
  type ProjectReflection,
  type Reflection,
  ReflectionKind,
} from "typedoc";
import { escapeHtml } from "../../src/report/render/escape-html.js";
import { kebab } from "../../tests/checks/public.js";
import type { Place } from "../contents.js";
import { figuresHtml } from "./figures.js";

/** Typedoc's own description, the same on every page. */
const DESCRIPTION = /<meta name="description" content="[^"]*"\/>/;
/** Characters below which a first sentence takes the next one in. */
const SHORTEST = 40;
/** Where a page wants the figures of a stored run. */
const FIGURES = /<!-- figures of (\w+) -->/;

/** Titles, groups, descriptions, and the lines above and below each page. */
export function pagesPlugin(contents: readonly Place[]): (app: Application) => void {
  return (app) => {
    app.converter.on(Converter.EVENT_CREATE_DOCUMENT, (_, document) => describe(document, contents));
    app.renderer.hooks.on("content.begin", (context) => placeLine(context, contents));
    app.renderer.hooks.on("content.end", (context) => onward(context, contents));
    app.renderer.on(PageEvent.END, (page) => {
      const text = page.isReflectionEvent() ? summaryOf(page.model) : "";
      if (page.contents === undefined) return;
      page.contents = page.contents
        .replace(DESCRIPTION, () => `<meta name="description" content="${escapeHtml(text)}"/>`)
        .replace('<div class="col-content">', '<div class="col-content" role="main">');
    });
  };
}

/** File of a document, relative to the package. */
export function fileOf(document: DocumentReflection): string {
  return relative(process.cwd(), document.project.files.getReflectionPath(document) ?? "");
}

function describe(document: DocumentReflection, contents: readonly Place[]): void {
  const file = fileOf(document);
  const place = contents.find((other) => other.file === file);
  if (place === undefined) throw new Error(`the page ${file} stands in no section of docs/contents.ts`);
  const { title, summary } = opening(readFileSync(file, "utf8"), file);
  document.name = title;
  document.frontmatter.group = place.group;
  if (place.section !== undefined) document.frontmatter.category = place.section;
  document.frontmatter.summary = summary;
  for (const part of document.content) {
    if (part.kind === "text") part.text = part.text.replace(FIGURES, (_, title: string) => figuresHtml(title));
  }
}

/** Heading and first sentence, or sentences, of a page, without marks of Markdown. */
function opening(text: string, file: string): { title: string; summary: string } {
  const heading = /^# (.+)\n/.exec(text);
  if (!heading) throw new Error(`the page ${file} does not begin with a heading`);
  const paragraph = text
    .slice(heading[0].length)
    .split(/\n\s*\n/)
    .find((block) => /^[\w`*[]/.test(block.trim()));
  const plain = (paragraph ?? "")
    .replace(/!?\[([^\]]*)\]\([^)]*\)/g, "$1")
    .replace(/[`*$]/g, "")
    .replace(/\s+/g, " ")
    .trim();
  return { title: heading[1]!.trim(), summary: new RegExp(`^.{${SHORTEST},}?[.?!:](?= |$)`).exec(plain)?.[0] ?? plain };
}

/** One sentence about any page: a document's first, a docstring's first, or that of the package. */
function summaryOf(model: Reflection): string {
  if (model.isDocument()) return String(model.frontmatter.summary);
  const comment = model.comment ?? (model.isDeclaration() ? model.signatures?.[0]?.comment : undefined);
  const text = comment?.summary.map((part) => part.text).join("") ?? "";
  const first = /^[\s\S]*?[.:](?=\s|$)/.exec(text)?.[0].replace(/\s+/g, " ");
  return (
    first ??
    `${model.isProject() ? "" : `${model.name}: `}motor-control metrics for aimed pointing movements, from recordings to what to practise next.`
  );
}

/** "Measures / Does practice work?" above the title, and the way between a function's page and the page of its measure. */
function placeLine(context: DefaultThemeRenderContext, contents: readonly Place[]): JSX.Element {
  const { model, project } = context.page;
  const place = placeOf(model, contents);
  const link = (to: Reflection | undefined, before: string, name: string) =>
    to && JSX.createElement("span", null, before, JSX.createElement("a", { href: context.urlTo(to) ?? "" }, name));
  if (place !== undefined) {
    const words = place.group === "none" ? [] : [place.group, ...(place.section === undefined ? [] : [place.section])];
    const measured = project.getReflectionsByKind(ReflectionKind.Function).find((found) => measureFile(found) === place.file);
    return JSX.createElement("p", { class: "place" }, words.join(" / "), link(measured, ". Reference: ", measured?.name ?? ""));
  }
  const page = contents.find(({ file }) => file === measureFile(model as Reflection));
  const document = page && documentOf(project, page);
  return document
    ? JSX.createElement("p", null, link(document, "When to use it, how to read it, what can go wrong: ", document.name))
    : JSX.createElement(JSX.Fragment, null);
}

/** Page that the shape check asks of a function which measures something. */
function measureFile({ kind, name }: Reflection): string | undefined {
  return kind === ReflectionKind.Function ? `docs/metrics/${kebab(name)}.md` : undefined;
}

/** The pages before and after this one in the order of the contents. */
function onward(context: DefaultThemeRenderContext, contents: readonly Place[]): JSX.Element {
  const place = placeOf(context.page.model, contents);
  if (place === undefined) return JSX.createElement(JSX.Fragment, null);
  const at = contents.indexOf(place);
  const link = (to: Place | undefined, rel: string, word: string) => {
    const document = to && documentOf(context.page.project, to);
    return document && JSX.createElement("a", { rel, href: context.urlTo(document) ?? "" }, word, document.name);
  };
  return JSX.createElement(
    "nav",
    { class: "onward", "aria-label": "Before and after this page" },
    link(contents[at - 1], "prev", "Before: "),
    link(contents[at + 1], "next", "Next: "),
  );
}

function placeOf(model: unknown, contents: readonly Place[]): Place | undefined {
  const reflection = model as Partial<Reflection>;
  if (!reflection.isDocument?.()) return undefined;
  const file = fileOf(model as DocumentReflection);
  return contents.find((place) => place.file === file);
}

function documentOf(project: ProjectReflection, { file }: Place): DocumentReflection | undefined {
  return project.documents?.find((document) => fileOf(document) === file);
}
