// Every public function has the same surroundings: its own file, a whole docstring, a test against something outside, a page, a line in the
// changelog. One person cannot keep that alike by eye; this script can. Prints what is missing and ends with 1.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { entryFolders, filesBelow, kebab, type PublicFunction, type PublicType, publicNames } from "./public.js";

/** Folders whose functions are measures: each has a page of its own, unless it is named below. */
/** Every entry but a page that records and data that are made up measures something, and tells of it on a page. */
const METRIC_FOLDERS = entryFolders().filter((folder) => folder !== "record" && folder !== "simulate");
/** Ways in and out of the library: they measure nothing, so any page may tell of them. */
const NOT_METRICS = [
  "fromPointerEvents",
  "fromRelativeMotion",
  "parseRecording",
  "formatRecording",
  "createAnalyzer",
  "toTable",
  "mergeTallies",
  "summarizeSession",
  "reviewPractice",
  "chartSpecs",
  "reviewCharts",
  "renderReport",
  "methods",
];
/** Folders that the main entry leaves out: a page that records, and data that are made up. */
const OWN_ENTRY_ONLY = ["record", "simulate", "formula"];
const LONG_FILE = 200;
const TOO_LONG_FILE = 300;
/** Longer explanations belong on the page. */
const TOO_LONG_DOCSTRING = 40;
/** In source, each of these hides something from the reader or the compiler. */
const FORBIDDEN: readonly [RegExp, string][] = [
  [/\bas any\b/, "`as any`"],
  [/@ts-(ignore|expect-error|nocheck)/, "a switched-off type check"],
  [/\b(TODO|FIXME|XXX)\b/, "an unfinished note"],
];
/** Folders of one machine. They would break on every other. */
const MACHINE_PATH = /(?<![\w.~-])\/(home|root|work|Users|tmp)\/\w/;

const problems: string[] = [];
const warnings: string[] = [];
const pages = [...filesBelow("docs", ".md").filter((file) => !file.startsWith(join("docs", "api"))), "README.md"]
  .filter(existsSync)
  .map((file) => ({ file, text: readFileSync(file, "utf8") }));
const changelog = existsSync("CHANGELOG.md") ? readFileSync("CHANGELOG.md", "utf8") : "";
const added = [...changelog.matchAll(/^### Added\n([\s\S]*?)(?=^##|(?![\s\S]))/gm)].map((match) => match[1]).join("\n");

const names = publicNames();
for (const other of names.others) problems.push(`${other}: is public but neither a declared function nor a type`);
for (const fn of names.functions) {
  checkFile(fn);
  checkDocstring(fn);
  checkTest(fn);
  checkPages(fn);
  if (!added.includes(`\`${fn.name}\``)) problems.push(`CHANGELOG.md: \`${fn.name}\` is not named under "Added"`);
}
for (const type of names.types) checkType(type);
checkEntries();
for (const file of filesBelow("src", ".ts")) checkSource(file);
for (const [folder, ending] of [
  ["tests", ".ts"],
  ["docs", ".md"],
  ["docs", ".ts"],
  ["examples", ".mjs"],
  ["examples", ".ts"],
  ["benchmarks", ".ts"],
] as const) {
  for (const file of filesBelow(folder, ending)) if (!file.includes("generated")) checkPaths(file);
}

for (const warning of warnings) console.log(`note: ${warning}`);
for (const problem of problems) console.error(problem);
console.log(`shape: ${names.functions.length} public functions, ${names.types.length} public types, ${problems.length} problems`);
process.exitCode = problems.length > 0 || names.functions.length === 0 ? 1 : 0;

/** One public function per file, the file named after it. */
function checkFile({ folder, name, file, node }: PublicFunction): void {
  const expected = join("src", folder, `${kebab(name)}.ts`);
  if (file !== expected) problems.push(`${file}: ${name} belongs in ${expected}`);
  for (const statement of node.getSourceFile().statements) {
    if (ts.isFunctionDeclaration(statement) && statement.name?.text !== name && isExported(statement)) {
      problems.push(`${file}: exports ${statement.name?.text} beside ${name}`);
    }
  }
}

function checkDocstring({ name, file, node, doc, tags }: PublicFunction): void {
  const miss = (what: string) => problems.push(`${file}: the docstring of ${name} ${what}`);
  if (doc === "") return void miss("is missing");
  const has = (kind: string) => tags.some((tag) => tag.kind === kind && (tag.text.trim() !== "" || kind === "throws"));
  const parameters = node.parameters.map((parameter) => parameter.name.getText());
  for (const parameter of parameters) {
    const tag = tags.find((entry) => entry.kind === "param" && entry.parameter === parameter);
    if (!tag || tag.text.replace(/^[\s-]+/, "") === "") miss(`does not describe @param ${parameter}`);
  }
  for (const tag of tags) {
    if (tag.kind === "param" && !parameters.includes(tag.parameter)) miss(`describes @param ${tag.parameter}, which is no parameter`);
  }
  if (node.type?.kind !== ts.SyntaxKind.VoidKeyword && !has("returns")) miss("has no @returns");
  if (parameters.length > 0 && !has("throws")) miss("has no @throws");
  if (!has("see")) miss("has no @see");
  const example = tags.find((tag) => tag.kind === "example");
  if (!example) miss("has no @example");
  else if (!/^```ts( |$)/m.test(example.text)) miss("has an @example without a ```ts fence");
  const lines = doc.split("\n").length;
  if (lines > TOO_LONG_DOCSTRING) miss(`has ${lines} lines, more than ${TOO_LONG_DOCSTRING}`);
}

function checkTest({ folder, name }: PublicFunction): void {
  const file = join("tests", folder, `${kebab(name)}.test.ts`);
  if (!existsSync(file)) return void problems.push(`${file}: is missing`);
  const text = readFileSync(file, "utf8");
  if (!/^\s*\/\/ Source: \S/m.test(text)) problems.push(`${file}: has no "// Source: ..." line`);
  const groups = describes(ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true));
  for (const part of ["against outside values", "properties", "bad input"]) {
    const tests = groups.get(`${name} ${part}`);
    if (tests === undefined) problems.push(`${file}: has no describe "${name} ${part}"`);
    else if (tests === 0) problems.push(`${file}: the describe "${name} ${part}" holds no test`);
  }
}

function checkPages({ folder, name }: PublicFunction): void {
  if (!pages.some(({ text }) => text.includes(`\`${name}\``) || new RegExp(`\`${name}\\(`).test(text))) {
    problems.push(`docs: no page names \`${name}\``);
  }
  if (!METRIC_FOLDERS.includes(folder) || NOT_METRICS.includes(name)) return;
  const file = join("docs", "metrics", `${kebab(name)}.md`);
  const text = pages.find((page) => page.file === file)?.text;
  if (text === undefined) return void problems.push(`${file}: is missing`);
  const body = text.replace(/^```[\s\S]*?^```/gm, "");
  if (!/^# \S/m.test(body)) problems.push(`${file}: has no heading`);
  if (!text.includes(`\`${name}\``)) problems.push(`${file}: does not name \`${name}\``);
  if (!/\$[^$]+\$/.test(body)) problems.push(`${file}: has no formula ($...$)`);
  if (sentence(body) === "") problems.push(`${file}: says not in its first sentence what \`${name}\` is for`);
  if (!/^(\*\*How to read it\.\*\*|## How to read it$)/m.test(body))
    problems.push(`${file}: does not say how to read it ("**How to read it.**")`);
  const limits = /^## What can go wrong$([\s\S]*?)(?=^## |^\*\*Source|(?![\s\S]))/m.exec(body)?.[1];
  if (limits === undefined) problems.push(`${file}: has no section "## What can go wrong"`);
  else if (!/\d/.test(limits)) problems.push(`${file}: names no limit in numbers under "What can go wrong"`);
  if (!/^\*\*Sources?\.\*\* \S/m.test(body)) problems.push(`${file}: names no source ("**Source.**")`);
  const pictures = [...body.matchAll(/!\[([^\]]*)\]\(([^)]+)\)/g)];
  if (pictures.length === 0) problems.push(`${file}: has no picture`);
  for (const [, label, target] of pictures) {
    if (label === "") problems.push(`${file}: the picture ${target} has no description`);
    if (!existsSync(join("docs", "metrics", target!))) problems.push(`${file}: the picture ${target} is missing`);
  }
}

/** What stands between the heading and the first full stop. */
function sentence(body: string): string {
  return /^# .+\n\n`\w+` [^.]{20,}\./.exec(body.trimStart())?.[0] ?? "";
}

/** Public types say what they are; options say it for every field. */
function checkType({ name, file, node }: PublicType): void {
  // beside its function a type is explained by that function's docstring
  const beside = names.functions.some((fn) => fn.file === file);
  if (!beside && ts.getJSDocCommentsAndTags(node).length === 0) problems.push(`${file}: the type ${name} has no docstring`);
  if (!name.endsWith("Options") || !ts.isInterfaceDeclaration(node)) return;
  for (const member of node.members) {
    if (ts.getJSDocCommentsAndTags(member).length === 0) problems.push(`${file}: ${name}.${member.name?.getText()} has no docstring`);
  }
}

/** The folders, the main entry and package.json tell of the same entries. */
function checkEntries(): void {
  const folders = entryFolders();
  const { exports, version } = JSON.parse(readFileSync("package.json", "utf8")) as { exports: Record<string, unknown>; version: string };
  const stated = join("src", "math", "version.ts");
  if (existsSync(stated) && !readFileSync(stated, "utf8").includes(`"${version}"`))
    problems.push(`${stated}: is not ${version} as in package.json`);
  const listed = Object.keys(exports).flatMap((key) => (/^\.\/[a-z]+$/.test(key) ? [key.slice(2)] : []));
  for (const folder of folders) if (!listed.includes(folder)) problems.push(`package.json: exports lacks ./${folder}`);
  for (const entry of listed)
    if (!folders.includes(entry)) problems.push(`package.json: exports ./${entry}, but src/${entry}/index.ts is missing`);
  for (const { folder, name } of names.functions) {
    if (OWN_ENTRY_ONLY.includes(folder) === names.main.has(name)) {
      problems.push(`src/index.ts: ${names.main.has(name) ? "must not export" : "does not export"} ${name} of ${folder}`);
    }
  }
  for (const folder of folders) {
    const file = join("src", folder, "index.ts");
    const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.ES2022, true);
    for (const statement of source.statements) {
      if (!ts.isExportDeclaration(statement) || !statement.exportClause || !ts.isNamedExports(statement.exportClause)) {
        problems.push(`${file}: holds more than named re-exports`);
      }
    }
  }
}

function checkSource(file: string): void {
  const text = readFileSync(file, "utf8");
  const lines = text.trimEnd().split("\n");
  if (lines.length > TOO_LONG_FILE) problems.push(`${file}: has ${lines.length} lines, more than ${TOO_LONG_FILE}`);
  else if (lines.length > LONG_FILE) warnings.push(`${file}: has ${lines.length} lines; is there a second idea in it?`);
  for (const [at, line] of lines.entries()) {
    for (const [pattern, what] of FORBIDDEN) if (pattern.test(line)) problems.push(`${file}:${at + 1}: ${what}`);
  }
  checkPaths(file);
}

function checkPaths(file: string): void {
  for (const [at, line] of readFileSync(file, "utf8").split("\n").entries()) {
    if (MACHINE_PATH.test(line) && !line.includes("MACHINE_PATH")) problems.push(`${file}:${at + 1}: names a folder of one machine`);
  }
}

/** Titles of the describe calls of a test file, each with the number of tests inside. */
function describes(source: ts.SourceFile): Map<string, number> {
  const found = new Map<string, number>();
  const visit = (node: ts.Node, titles: readonly string[]): void => {
    let inner = titles;
    if (ts.isCallExpression(node)) {
      const called = firstWord(node.expression);
      const title = node.arguments[0];
      if (called === "describe" && title && ts.isStringLiteralLike(title)) {
        inner = [...titles, title.text];
        if (!found.has(title.text)) found.set(title.text, 0);
      } else if ((called === "it" || called === "test") && node.arguments.length > 1) {
        for (const name of titles) found.set(name, (found.get(name) ?? 0) + 1);
      }
    }
    ts.forEachChild(node, (child) => visit(child, inner));
  };
  visit(source, []);
  return found;
}

/** `describe` of `describe.skipIf(absent)(...)`. */
function firstWord(node: ts.Expression): string {
  if (ts.isIdentifier(node)) return node.text;
  if (ts.isPropertyAccessExpression(node) || ts.isCallExpression(node)) return firstWord(node.expression);
  return "";
}

function isExported(node: ts.FunctionDeclaration): boolean {
  return node.modifiers?.some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword) ?? false;
}
