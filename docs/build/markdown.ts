// What the pages' Markdown needs beyond typedoc's own: formulas, tables that scroll by themselves on a phone, pictures that open in full.
import katex from "@vscode/markdown-it-katex";

/** As much of a markdown-it parser as is used here; typedoc brings the parser, and no types of it. */
export interface Parser {
  use(plugin: unknown, options: object): unknown;
  readonly core: { readonly ruler: { push(name: string, rule: (state: { tokens: Token[] }) => void): void } };
  readonly renderer: { readonly rules: Record<string, Rule | undefined> };
}
interface Token {
  readonly type: string;
  info: string;
  attrGet(name: string): string | null;
}
type Rule = (tokens: readonly Token[], at: number, ...rest: readonly unknown[]) => string;

/** Teaches a Markdown parser to set formulas, tables and pictures as the site shows them. */
export function extendMarkdown(md: Parser): void {
  md.use((katex as unknown as { default: typeof katex }).default ?? katex, { throwOnError: true });
  md.core.ruler.push("language-only", ({ tokens }) => {
    // words after the language of a fence are for the examples' check, not for the highlighter
    for (const token of tokens) if (token.type === "fence") token.info = token.info.trim().split(/\s+/)[0]!;
  });
  md.renderer.rules.table_open = () => '<div class="wide"><table>\n';
  md.renderer.rules.table_close = () => "</table></div>\n";
  const image = md.renderer.rules.image!;
  md.renderer.rules.image = (tokens, at, ...rest) => {
    const picture = image(tokens, at, ...rest);
    return `<a class="picture" href="${tokens[at]!.attrGet("src")}" title="Open the picture alone">${picture}</a>`;
  };
}
