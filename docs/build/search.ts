// The words of the glossary lead to the pages that its rows name: the field's term and the everyday words of a row become words of each page linked in it.
import { readFileSync } from "node:fs";
import { join, normalize } from "node:path";
import { type Application, IndexEvent } from "typedoc";
import type { Place } from "../contents.js";
import { fileOf } from "./pages.js";

const GLOSSARY = join("docs", "glossary.md");
/** A page before a function of the same name, both before a field of some result. */
const BOOST = { page: 4, entry: 1, member: 0.02 };
const WORDS = 12;

/** Fills the search index. */
export function searchPlugin(contents: readonly Place[]): (app: Application) => void {
  return (app) => {
    const words = glossaryWords();
    for (const file of words.keys()) {
      if (!contents.some((place) => place.file === file)) throw new Error(`${GLOSSARY} links to ${file}, which is no page`);
    }
    app.renderer.on(IndexEvent.PREPARE_INDEX, (event) => {
      event.searchFieldWeights.words = WORDS;
      for (const [at, found] of event.searchResults.entries()) {
        if (!found.isDocument()) {
          found.relevanceBoost = found.parent?.isProject() || found.parent?.parent?.isProject() ? BOOST.entry : BOOST.member;
          continue;
        }
        found.relevanceBoost = BOOST.page;
        const file = fileOf(found);
        event.searchFields[at] = { words: words.get(file)?.join(" ") ?? "", document: proseOf(readFileSync(file, "utf8")) };
      }
    });
  };
}

/** Per page file, the terms and everyday words of the glossary's rows that link to it. */
function glossaryWords(): Map<string, string[]> {
  const words = new Map<string, string[]>();
  for (const line of readFileSync(GLOSSARY, "utf8").split("\n")) {
    const cells = line.split("|").map((cell) => cell.trim());
    if (cells.length !== 5 || /^[-: ]*$/.test(cells[1]!)) continue;
    const [, term, , everyday] = cells as [string, string, string, string, string];
    for (const [, target] of line.matchAll(/\]\(([\w./-]+\.md)\)/g)) {
      const file = normalize(join("docs", target!));
      words.set(file, [...(words.get(file) ?? []), term.replace(/\]\([^)]*\)|[[\]`$]/g, ""), everyday]);
    }
  }
  return words;
}

/** What a reader would search for: neither code nor figures. */
function proseOf(text: string): string {
  return text.replace(/^```[\s\S]*?^```/gm, "").replace(/\$[^$]*\$|\]\([^)]*\)|\d[\d.,]*/g, " ");
}
