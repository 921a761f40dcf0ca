// What the package offers, read from the index files of the source folders with the TypeScript compiler. Shared by the checks beside it.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import ts from "typescript";

/** A function that a user can import. */
export interface PublicFunction {
  /** Folder under `src`, which is also the subpath it is imported from. */
  readonly folder: string;
  readonly name: string;
  /** Source file, relative to the package. */
  readonly file: string;
  readonly node: ts.FunctionDeclaration;
  /** Its docstring, empty when there is none. */
  readonly doc: string;
  readonly tags: readonly Tag[];
}

/** One `@tag` of a docstring. */
export interface Tag {
  /** `"param"`, `"returns"`, … */
  readonly kind: string;
  /** Name of the parameter; empty for other tags. */
  readonly parameter: string;
  readonly text: string;
  /** Line of the tag in its file, from 1. */
  readonly line: number;
}

/** An interface that a user can name, declared in a source folder. */
export interface PublicType {
  readonly folder: string;
  readonly name: string;
  readonly file: string;
  readonly node: ts.Declaration;
}

export interface PublicNames {
  readonly functions: readonly PublicFunction[];
  readonly types: readonly PublicType[];
  /** Exports that are neither a function declaration nor a type, as `folder: name`. */
  readonly others: readonly string[];
  /** Names of the values that the main entry exports. */
  readonly main: ReadonlySet<string>;
}

/** Folders under `src` with an index file: the subpath entries. */
export function entryFolders(): string[] {
  return readdirSync("src", { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join("src", entry.name, "index.ts")))
    .map((entry) => entry.name)
    .sort();
}

/** Every file below a folder whose name ends so, sorted, relative to the package. */
export function filesBelow(folder: string, ending: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(ending))
    .map((name) => join(folder, name))
    .sort();
}

/** Reads the public names of the package in the current folder. */
export function publicNames(): PublicNames {
  const folders = entryFolders();
  const mainFile = "src/index.ts";
  const files = folders.map((folder) => join("src", folder, "index.ts"));
  const program = ts.createProgram(existsSync(mainFile) ? [...files, mainFile] : files, compilerOptions("tsconfig.json"));
  const checker = program.getTypeChecker();
  const functions: PublicFunction[] = [];
  const types: PublicType[] = [];
  const others: string[] = [];
  for (const [at, folder] of folders.entries()) {
    for (const symbol of exportsOf(program, checker, files[at]!)) {
      // of overloads, the one that carries the docstring
      const declarations = symbol.declarations ?? [];
      const node = declarations.find((declaration) => ts.getJSDocCommentsAndTags(declaration).length > 0) ?? declarations[0];
      if (node === undefined) continue;
      const file = relative(process.cwd(), node.getSourceFile().fileName);
      if (ts.isFunctionDeclaration(node)) functions.push({ folder, name: symbol.name, file, node, ...docstring(node) });
      else if (ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) types.push({ folder, name: symbol.name, file, node });
      else others.push(`${folder}: ${symbol.name}`);
    }
  }
  const main = exportsOf(program, checker, mainFile).filter((symbol) => (symbol.flags & ts.SymbolFlags.Value) !== 0);
  return { functions, types, others, main: new Set(main.map((symbol) => symbol.name)) };
}

/** Compiler options of a project file. */
export function compilerOptions(project: string): ts.CompilerOptions {
  const { config, error } = ts.readConfigFile(project, (path) => readFileSync(path, "utf8"));
  if (error) throw new Error(ts.flattenDiagnosticMessageText(error.messageText, "\n"));
  return ts.parseJsonConfigFileContent(config, ts.sys, join(project, "..")).options;
}

function exportsOf(program: ts.Program, checker: ts.TypeChecker, file: string): ts.Symbol[] {
  const source = program.getSourceFile(file);
  const module = source && checker.getSymbolAtLocation(source);
  if (!module) return [];
  return checker
    .getExportsOfModule(module)
    .map((symbol) => ((symbol.flags & ts.SymbolFlags.Alias) !== 0 ? checker.getAliasedSymbol(symbol) : symbol));
}

function docstring(node: ts.FunctionDeclaration): Pick<PublicFunction, "doc" | "tags"> {
  const source = node.getSourceFile();
  const comment = ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc).at(-1);
  const tags = (comment?.tags ?? []).map((tag) => ({
    kind: tag.tagName.text,
    parameter: ts.isJSDocParameterTag(tag) ? tag.name.getText(source) : "",
    text: ts.getTextOfJSDocComment(tag.comment) ?? "",
    line: source.getLineAndCharacterOfPosition(tag.getStart(source)).line + 1,
  }));
  return { doc: comment?.getText(source) ?? "", tags };
}

/** Name of the files that belong to a function. */
export function kebab(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}
