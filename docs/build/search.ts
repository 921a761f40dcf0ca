// The words of the glossary lead to the pages that its rows name: the field's term and the everyday words of a row become words of each page linked in it.
import { readFileSync } from "node:fs";
import { join, normalize } from "node:path";
import { type Application, IndexEvent, type Reflection, ReflectionKind } from "typedoc";
import type { Place } from "../contents.js";
import { fileOf } from "./pages.js";

const GLOSSARY = join("docs", "glossary.md");
/** A page before a function, a function before a type, all before a field of some result: a name that begins like the question counts tenfold by itself. */
const BOOST = { page: 10, function: 1, type: 0.1, member: 0.02 };
/** Beside 10 for a title. In whole texts any word occurs by chance. */
const WEIGHTS = { words: 100, document: 0.2, comment: 0.2 };

/** Fills the search index. */
export function searchPlugin(contents: readonly Place[]): (app: Application) => void {
  return (app) => {
    const words = glossaryWords();
    for (const file of words.keys()) {
      if (!contents.some((place) => place.file === file)) throw new Error(`${GLOSSARY} links to ${file}, which is no page`);
    }
    app.renderer.on(IndexEvent.PREPARE_INDEX, (event) => {
      Object.assign(event.searchFieldWeights, WEIGHTS);
      for (const [at, found] of event.searchResults.entries()) {
        if (!found.isDocument()) {
          found.relevanceBoost = boostOf(found);
          continue;
        }
        found.relevanceBoost = BOOST.page;
        const file = fileOf(found);
        event.searchFields[at] = { words: words.get(file)?.join(" ") ?? "", document: proseOf(readFileSync(file, "utf8")) };
      }
    });
  };
}

function boostOf({ kind, parent }: Reflection): number {
  if (kind === ReflectionKind.Function || kind === ReflectionKind.Module) return BOOST.function;
  return parent?.kind === ReflectionKind.Module ? BOOST.type : BOOST.member;
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
