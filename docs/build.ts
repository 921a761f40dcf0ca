// `npm run docs`: pictures, then the site (reference, guides, formulas) into site/, then every page and link of it is checked.
// Ends with 1 on a warning, a formula that does not parse, or a dead link.
import { cpSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { Application } from "typedoc";
import { buildIfStale } from "../tests/checks/build.js";
import { filesBelow } from "../tests/checks/public.js";
import { badFormulas, deadLinks } from "./build/faults.js";
import { siteOptions } from "./build/options.js";
import { bundleLivePage } from "./live/bundle.js";
import { renderPictures } from "./pictures.js";

const SITE = "site";

const started = performance.now();
buildIfStale();
for (const name of await renderPictures()) console.log(`drawn anew: docs/pictures/${name}.svg`);
rmSync(SITE, { recursive: true, force: true });
const problems = (await buildSite()) ? [...badFormulas(SITE), ...(await deadLinks(SITE))] : ["typedoc: see above"];
for (const problem of problems) console.error(problem);
const pages = filesBelow(SITE, ".html").length;
console.log(`docs: ${pages} pages in ${SITE}, ${problems.length} problems, ${((performance.now() - started) / 1000).toFixed(1)} s`);
process.exitCode = problems.length > 0 ? 1 : 0;

async function buildSite(): Promise<boolean> {
  const app = await Application.bootstrapWithPlugins(siteOptions(SITE));
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
