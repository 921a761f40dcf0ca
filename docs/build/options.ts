// What typedoc is told: reference from the docstrings of the public entries, pages from docs in the order of its contents, the README as front page.
import { readFileSync } from "node:fs";
import type { TypeDocOptions } from "typedoc";
import { CONTENTS, places } from "../contents.js";
import { extendMarkdown } from "./markdown.js";
import { pagesPlugin } from "./pages.js";
import { searchPlugin } from "./search.js";

/** Typedoc's options for a site in the folder `out`. */
export function siteOptions(out: string): Partial<TypeDocOptions> {
  const { exports } = JSON.parse(readFileSync("package.json", "utf8")) as { exports: Record<string, unknown> };
  const contents = places();
  return {
    name: "aimed-movement",
    // every subpath of the package is a folder of the source
    entryPoints: Object.keys(exports).flatMap((entry) => (/^\.\/[a-z]+$/.test(entry) ? [`src/${entry.slice(2)}/index.ts`] : [])),
    tsconfig: "tsconfig.json",
    readme: "README.md",
    projectDocuments: contents.map(({ file }) => file),
    out,
    customCss: "docs/site.css",
    favicon: "docs/favicon.svg",
    plugin: [pagesPlugin(contents), searchPlugin(contents)],
    markdownItLoader: extendMarkdown,
    headings: { readme: false, document: false },
    excludePrivate: true,
    excludeInternal: true,
    githubPages: false,
    hideGenerator: true,
    disableSources: true,
    sort: ["source-order"],
    navigation: { includeGroups: true, includeCategories: true },
    categorizeByGroup: true,
    locales: { en: { kind_plural_module: "Reference" } },
    highlightLanguages: ["typescript", "javascript", "json", "csv", "sh", "html", "css"],
    groupOrder: ["none", "Guides", "Measures", "Reference", "Evidence", "*"],
    categoryOrder: CONTENTS.flatMap(({ sections }) => sections.flatMap(({ title }) => title ?? [])),
    blockTags: ["@param", "@returns", "@throws", "@see", "@example", "@group"],
    searchInDocuments: true,
    validation: { notExported: true, invalidLink: true, invalidPath: true, rewrittenLink: true, notDocumented: false },
    logLevel: "Warn",
    treatWarningsAsErrors: true,
    treatValidationWarningsAsErrors: true,
  };
}
