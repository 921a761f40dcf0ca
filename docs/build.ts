// `npm run docs`: pictures, then the site (reference, guides, formulas) into site/, then every page and link of it is checked.
// Ends with 1 on a warning, a formula that does not parse, or a dead link.
import { cpSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { LinkChecker, LinkState } from "linkinator";
import { Application } from "typedoc";
import { buildIfStale } from "../tests/checks/build.js";
import { filesBelow } from "../tests/checks/public.js";
import { bundleLivePage } from "./live/bundle.js";
import { renderPictures } from "./pictures.js";

const SITE = "site";

const started = performance.now();
buildIfStale();
for (const name of await renderPictures()) console.log(`drawn anew: docs/pictures/${name}.svg`);
rmSync(SITE, { recursive: true, force: true });
const problems = (await buildSite()) ? [...badFormulas(), ...(await deadLinks())] : ["typedoc: see above"];
for (const problem of problems) console.error(problem);
const pages = filesBelow(SITE, ".html").length;
console.log(`docs: ${pages} pages in ${SITE}, ${problems.length} problems, ${((performance.now() - started) / 1000).toFixed(1)} s`);
process.exitCode = problems.length > 0 ? 1 : 0;

async function buildSite(): Promise<boolean> {
  const app = await Application.bootstrapWithPlugins({ options: "typedoc.config.mjs" });
  const project = await app.convert();
  if (!project) return false;
  app.validate(project);
  if (app.logger.hasErrors() || app.logger.hasWarnings()) return false;
  await app.generateOutputs(project);
  if (app.logger.hasErrors() || app.logger.hasWarnings()) return false;
  // the plugin that sets formulas depends on KaTeX; what it uses is what the page must load
  const plugin = createRequire(import.meta.url).resolve("@vscode/markdown-it-katex");
  const katex = dirname(createRequire(plugin).resolve("katex/dist/katex.min.css"));
  cpSync(join(katex, "katex.min.css"), join(SITE, "assets", "katex", "katex.min.css"));
  cpSync(join(katex, "fonts"), join(SITE, "assets", "katex", "fonts"), { recursive: true });
  for (const line of await bundleLivePage(join(SITE, "assets", "live"))) console.log(line);
  return true;
}

/** A formula that KaTeX refuses is shown in red and stops nothing; here it does. */
function badFormulas(): string[] {
  return filesBelow(SITE, ".html").flatMap((file) => {
    const page = readFileSync(file, "utf8");
    return [...page.matchAll(/<span class="katex-error"[^>]*title="([^"]*)"/g)].map((match) => `${file}: formula: ${match[1]}`);
  });
}

/** Links from page to page; addresses elsewhere are not asked, so that the build needs no network. */
async function deadLinks(): Promise<string[]> {
  const { links } = await new LinkChecker().check({
    path: SITE,
    recurse: true,
    checkFragments: true,
    linksToSkip: ["^https?://(?!localhost|127\\.)", "^data:"],
  });
  const dead = links.filter((link) => link.state === LinkState.BROKEN);
  if (links.length === 0) return ["linkinator found no link at all"];
  return dead.map((link) => `${link.parent}: dead link ${link.url}`);
}
