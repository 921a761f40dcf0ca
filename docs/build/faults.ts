// What typedoc lets pass: formulas that do not parse, links that lead nowhere.
import { readFileSync } from "node:fs";
import { LinkChecker, LinkState } from "linkinator";
import { filesBelow } from "../../tests/checks/public.js";

/** A formula that KaTeX refuses is shown in red and stops nothing; here it does. */
export function badFormulas(site: string): string[] {
  return filesBelow(site, ".html").flatMap((file) => {
    const page = readFileSync(file, "utf8");
    return [...page.matchAll(/<span class="katex-error"[^>]*title="([^"]*)"/g)].map((match) => `${file}: formula: ${match[1]}`);
  });
}

/** Links from page to page; addresses elsewhere are not asked, so that the build needs no network. */
export async function deadLinks(site: string): Promise<string[]> {
  const { links } = await new LinkChecker().check({
    path: site,
    recurse: true,
    checkFragments: true,
    linksToSkip: ["^https?://(?!localhost|127\\.)", "^data:"],
  });
  const dead = links.filter((link) => link.state === LinkState.BROKEN);
  if (links.length === 0) return ["linkinator found no link at all"];
  return dead.map((link) => `${link.parent}: dead link ${link.url}`);
}
