// Every example in the docstrings of public functions, in the README and in the guides is compiled and run as a stranger would run it, against
// the built package: this script writes tests/generated/examples.test.ts, and vitest runs it. `expression // => value` becomes an assertion.
//
// - ```ts            compiled and run
// - ```ts continued  belongs to the fence before it on the same page
// - ```ts no-run     compiled only (needs a page, a file, a person)
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import ts from "typescript";
import { parsePrinted } from "./printed.js";
import { compilerOptions, filesBelow, type PublicNames, publicNames } from "./public.js";

/** One runnable piece of documentation. */
interface Example {
  readonly file: string;
  /** Line of its first code line in the file, from 1. */
  readonly line: number;
  readonly title: string;
  /** Imports that the snippet leaves out, as one line. */
  readonly imports: string;
  readonly code: string;
  readonly run: boolean;
}

const MARK = /\/\/ =>/g;
const GENERATED = join("tests", "generated");
const problems: string[] = [];

const names = publicNames();
const examples = [...fromDocstrings(names), ...fromPages()];
const runnable = examples.filter((example) => example.run);
checkTypes(examples);
let assertions = 0;
const tests = runnable.map(toTest);
mkdirSync(GENERATED, { recursive: true });
writeFileSync(
  join(GENERATED, "examples.test.ts"),
  `// @ts-nocheck written by tests/checks/examples.ts, which compiles each example by itself
import { describe, expect, it } from "vitest";
import { comparePrinted } from "../checks/printed.js";

describe("the examples of the documentation", () => {
  it("compile, and say what they give", () => expect(${JSON.stringify(problems)}).toEqual([]));
${tests.join("\n")}
});
`,
);
// the tests tell of them again and fail, so that an example with a fault does not keep the other tests from running
for (const problem of problems) console.error(problem);
const skipped = examples.length - runnable.length;
console.log(`examples: ${runnable.length} to run with ${assertions} values, ${skipped} compiled only, ${problems.length} problems`);

function fromDocstrings({ functions, types }: PublicNames): Example[] {
  // what to import for a name, and from where
  const sources = new Map([
    ...types.map(({ name, folder }) => [name, `import { type ${name} } from "aimed-movement/${folder}";`] as const),
    ...functions.map(({ name, folder }) => [name, `import { ${name} } from "aimed-movement/${folder}";`] as const),
  ]);
  return functions.flatMap(({ name, file, tags }) => {
    const found = tags
      .filter((tag) => tag.kind === "example")
      .flatMap((tag) => fences(tag.text).map((fence) => ({ ...fence, line: tag.line + fence.line - 1 })));
    return found.map(({ code, info, line }) => {
      const run = !info.includes("no-run");
      if (run && !code.includes("// =>")) problems.push(`${file}:${line}: the example of ${name} shows no value (// => value)`);
      return { file, line, title: name, imports: missingImports(code, sources), code, run };
    });
  });
}

function fromPages(): Example[] {
  const pages = ["README.md", ...filesBelow("docs", ".md").filter((file) => !file.startsWith(join("docs", "api")))];
  return pages.filter(existsSync).flatMap((file) => {
    const found: Example[] = [];
    for (const { code, info, line } of fences(readFileSync(file, "utf8"))) {
      const before = found.at(-1);
      if (info.includes("continued") && before) {
        // empty lines between keep the line numbers of messages right
        const gap = line - before.line - before.code.split("\n").length;
        found[found.length - 1] = { ...before, code: before.code + "\n".repeat(gap + 1) + code };
      } else found.push({ file, line, title: "page", imports: "", code, run: !info.includes("no-run") });
    }
    return found;
  });
}

/** The ts fences of a text, with the line of their first code line. */
function fences(text: string): { code: string; info: string[]; line: number }[] {
  const found: { code: string; info: string[]; line: number }[] = [];
  const lines = text.split("\n");
  for (let i = 0; i < lines.length; i++) {
    const open = /^\s*```(\S*)\s*(.*)$/.exec(lines[i]!);
    if (!open) continue;
    const start = i + 1;
    for (i++; i < lines.length && !/^\s*```\s*$/.test(lines[i]!); i++);
    if (open[1] !== "ts") continue;
    const info = open[2]!.split(/\s+/).filter((word) => word !== "");
    const unknown = info.filter((word) => word !== "no-run" && word !== "continued");
    if (unknown.length > 0) problems.push(`unknown word "${unknown.join(" ")}" after \`\`\`ts`);
    found.push({ code: lines.slice(start, i).join("\n"), info, line: start + 1 });
  }
  return found;
}

/** A docstring stands beside its function, so an example there may leave the import of public names out. */
function missingImports(code: string, sources: ReadonlyMap<string, string>): string {
  const source = parse(code);
  const used = new Set<string>();
  const bound = new Set<string>();
  const visit = (node: ts.Node): void => {
    if (ts.isImportSpecifier(node) || ts.isVariableDeclaration(node) || ts.isFunctionDeclaration(node))
      bound.add(node.name?.getText(source) ?? "");
    const property = ts.isPropertyAccessExpression(node.parent ?? node) && (node.parent as ts.PropertyAccessExpression).name === node;
    if (ts.isIdentifier(node) && !property && sources.has(node.text)) used.add(node.text);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return [...used]
    .filter((name) => !bound.has(name))
    .map((name) => sources.get(name))
    .join(" ");
}

/** Compiles every example as a module of its own, with the strictness that a user would have. */
function checkTypes(all: readonly Example[]): void {
  if (!existsSync(join("dist", "index.d.ts"))) {
    problems.push("dist holds no declarations: run `npm run build` first");
    return;
  }
  const options: ts.CompilerOptions = {
    ...compilerOptions("tsconfig.json"),
    isolatedDeclarations: false,
    declaration: false,
    noUncheckedIndexedAccess: false,
    noUnusedLocals: false,
    noUnusedParameters: false,
    verbatimModuleSyntax: false,
    moduleDetection: ts.ModuleDetectionKind.Force,
    types: ["node"],
  };
  const modules = new Map(all.map((example, at) => [resolve(GENERATED, `example-${at}.ts`), example]));
  const host = ts.createCompilerHost(options);
  const { fileExists, readFile, getSourceFile } = host;
  const text = (file: string) => {
    const example = modules.get(resolve(file));
    return example && `${example.imports}\n${example.code}`;
  };
  host.fileExists = (file) => modules.has(resolve(file)) || fileExists(file);
  host.readFile = (file) => text(file) ?? readFile(file);
  host.getSourceFile = (file, language, ...rest) => {
    const own = text(file);
    return own === undefined ? getSourceFile(file, language, ...rest) : ts.createSourceFile(file, own, language, true);
  };
  const program = ts.createProgram([...modules.keys()], options, host);
  for (const [path, { file, line }] of modules) {
    const source = program.getSourceFile(path)!;
    for (const { start, messageText } of [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)]) {
      const at = source.getLineAndCharacterOfPosition(start ?? 0).line - 1;
      problems.push(`${file}:${line + at}: ${ts.flattenDiagnosticMessageText(messageText, "\n")}`);
    }
  }
}

/** An example as one vitest test: imports become dynamic ones, so that two examples may use the same names. */
function toTest({ file, line, title, imports, code }: Example): string {
  const text = `${imports}\n${code}`;
  const source = parse(text);
  const body: string[] = [];
  let found = 0;
  for (const statement of source.statements) {
    if (ts.isImportDeclaration(statement)) {
      body.push(toDynamicImport(statement));
      continue;
    }
    const printed = printedAfter(text, statement.end);
    const value = printed === undefined ? undefined : shownValue(statement, source);
    if (ts.isVariableStatement(statement) || value === undefined) body.push(statement.getText(source));
    if (printed === undefined) continue;
    found++;
    const at = `${file}:${line - 1 + source.getLineAndCharacterOfPosition(statement.getStart(source)).line}`;
    if (value === undefined) {
      problems.push(`${at}: "// =>" follows neither an expression nor a variable`);
      continue;
    }
    try {
      parsePrinted(printed);
    } catch (error) {
      problems.push(`${at}: ${(error as Error).message}`);
    }
    body.push(`expect(await comparePrinted(async () => (${value}), ${JSON.stringify(printed)})).toEqual([]);`);
  }
  if ((text.match(MARK) ?? []).length !== found) {
    problems.push(`${file}:${line}: a "// =>" stands inside a block, where no value is checked`);
  }
  assertions += found;
  return `  it(${JSON.stringify(`${file}:${line} (${title})`)}, async () => {\n    ${body.join("\n    ")}\n  });`;
}

/** The value after "// =>" on the statement's last line or on the line after it, over several comment lines while brackets are open. */
function printedAfter(text: string, end: number): string | undefined {
  const match = /^[ \t;]*(?:\r?\n)?[ \t]*\/\/ =>[ \t]*(.*)/.exec(text.slice(end));
  if (!match) return undefined;
  let printed = match[1]!.trim();
  for (const line of text
    .slice(end + match[0].length)
    .split("\n")
    .slice(1)) {
    const more = /^\s*\/\/\s*(?!=>)(.*)$/.exec(line);
    if (!more || isClosed(printed)) break;
    printed += ` ${more[1]!.trim()}`;
  }
  return printed;
}

function isClosed(printed: string): boolean {
  const bare = printed.replace(/"(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'/g, "");
  return bare.split(/[[{]/).length === bare.split(/[\]}]/).length;
}

/** What a statement shows: its expression, the argument of `console.log`, the variable it declares, or the expression after an `if`. */
function shownValue(statement: ts.Statement, source: ts.SourceFile): string | undefined {
  if (ts.isVariableStatement(statement)) {
    const declared = statement.declarationList.declarations.at(-1)!.name;
    return ts.isIdentifier(declared) ? declared.text : undefined;
  }
  // `if (estimate.ok) estimate.value; // => 12.05`, where a false condition shows nothing and so must fail
  if (ts.isIfStatement(statement) && !statement.elseStatement && ts.isExpressionStatement(statement.thenStatement)) {
    const then = statement.thenStatement.expression.getText(source);
    return `(${statement.expression.getText(source)}) ? (${then}) : "nothing, the condition is false"`;
  }
  if (!ts.isExpressionStatement(statement)) return undefined;
  const { expression } = statement;
  const logged = ts.isCallExpression(expression) && expression.expression.getText(source) === "console.log";
  return (logged && expression.arguments.length === 1 ? expression.arguments[0]! : expression).getText(source);
}

function toDynamicImport(statement: ts.ImportDeclaration): string {
  const from = statement.moduleSpecifier.getText();
  const clause = statement.importClause;
  if (!clause) return `await import(${from});`;
  const bindings = clause.namedBindings;
  const parts: string[] = [];
  if (clause.isTypeOnly) return "";
  if (clause.name) parts.push(`default: ${clause.name.text}`);
  if (bindings && ts.isNamespaceImport(bindings)) return `const ${bindings.name.text} = await import(${from});`;
  for (const { isTypeOnly, propertyName, name } of bindings?.elements ?? []) {
    if (!isTypeOnly) parts.push(propertyName ? `${propertyName.text}: ${name.text}` : name.text);
  }
  return `const { ${parts.join(", ")} } = await import(${from});`;
}

function parse(code: string): ts.SourceFile {
  return ts.createSourceFile("example.ts", code, ts.ScriptTarget.ES2022, true);
}
