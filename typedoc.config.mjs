// The documentation site: reference from the docstrings of the public entries, guides and metric pages from docs, the README as front page.
import { createRequire } from "node:module";
import { Converter } from "typedoc";

const require = createRequire(import.meta.url);
const katex = require("@vscode/markdown-it-katex").default;

export default {
  name: "aimed-movement",
  // every subpath of the package is a folder of the source
  entryPoints: Object.keys(require("./package.json").exports).flatMap((entry) =>
    /^\.\/[a-z]+$/.test(entry) ? [`src/${entry.slice(2)}/index.ts`] : [],
  ),
  tsconfig: "tsconfig.json",
  readme: "README.md",
  projectDocuments: ["docs/*.md", "docs/metrics/*.md", "CHANGELOG.md"],
  out: "site",
  customCss: "docs/site.css",
  plugin: [titlesFromHeadings],
  markdownItLoader: (md) => {
    md.use(katex, { throwOnError: true });
    md.core.ruler.push("language-only", languageOnly);
  },
  excludePrivate: true,
  excludeInternal: true,
  githubPages: false,
  hideGenerator: true,
  disableSources: true,
  sort: ["source-order"],
  navigation: { includeGroups: true },
  highlightLanguages: ["typescript", "javascript", "json", "csv", "sh", "html", "css"],
  groupOrder: ["Guides", "Measures", "Modules", "*"],
  blockTags: ["@param", "@returns", "@throws", "@see", "@example", "@group"],
  validation: { notExported: true, invalidLink: true, invalidPath: true, rewrittenLink: true, notDocumented: false },
  logLevel: "Warn",
  treatWarningsAsErrors: true,
  treatValidationWarningsAsErrors: true,
};

/** Words after the language of a fence are for the examples' check, not for the highlighter. */
function languageOnly({ tokens }) {
  for (const token of tokens) if (token.type === "fence") token.info = token.info.trim().split(/\s+/)[0];
}

/** Pages carry no front matter, so that they read well as plain files: the first heading is the title, the folder decides the group. */
function titlesFromHeadings(app) {
  app.converter.on(Converter.EVENT_CREATE_DOCUMENT, (_, document) => {
    const first = document.content[0];
    const heading = first?.kind === "text" ? /^\s*# (.+)(\n|$)/.exec(first.text) : null;
    if (!heading) throw new Error(`the page ${document.name} does not begin with a heading`);
    document.frontmatter.group ??= document.name.includes("metrics/") ? "Measures" : "Guides";
    document.name = heading[1].trim();
  });
}
