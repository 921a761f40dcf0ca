// The public surface as text, one report per entry in docs/api: a change of it must be seen and meant.
// `--write` writes the reports; without it they are compared, and a difference ends with 1.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { Extractor, ExtractorConfig, ExtractorLogLevel, type ExtractorMessage } from "@microsoft/api-extractor";
import { buildIfStale } from "./build.js";
import { entryFolders, publicNames } from "./public.js";

const REPORTS = join("docs", "api");

buildIfStale();
const write = process.argv.includes("--write");
const entries = ["index", ...entryFolders()];
const publicTypes = new Set(publicNames().types.map((type) => type.name));
const scratch = mkdtempSync(join(tmpdir(), "api-"));
let failed = 0;
mkdirSync(REPORTS, { recursive: true });
for (const entry of entries) {
  const { text, messages } = report(entry);
  for (const message of messages) console.error(`${entry}: ${message}`);
  failed += messages.length;
  const file = join(REPORTS, `${entry}.api.md`);
  const before = existsSync(file) ? readFileSync(file, "utf8") : "";
  if (write) writeFileSync(file, text);
  else if (before === "") {
    failed++;
    console.error(`${file}: is absent; \`npm run api\` writes it`);
  } else if (before !== text) {
    failed++;
    console.error(
      `${file}: the public surface is another; look at the lines, then \`npm run api\` writes them\n${difference(before, text)}`,
    );
  }
}
for (const file of readdirSync(REPORTS).filter((name) => name.endsWith(".api.md") && !entries.includes(name.slice(0, -".api.md".length)))) {
  if (write) {
    rmSync(join(REPORTS, file));
    continue;
  }
  failed++;
  console.error(`${join(REPORTS, file)}: belongs to no entry`);
}
rmSync(scratch, { recursive: true });
console.log(`api: ${entries.length} reports ${write ? "written" : failed === 0 ? "agree" : "compared"}, ${failed} problems`);
process.exitCode = failed > 0 ? 1 : 0;

function report(entry: string): { text: string; messages: string[] } {
  const messages: string[] = [];
  const config = ExtractorConfig.prepare({
    configObject: {
      projectFolder: resolve("."),
      mainEntryPointFilePath: resolve("dist", entry === "index" ? "index.d.ts" : `${entry}/index.d.ts`),
      compiler: { tsconfigFilePath: resolve("tsconfig.json") },
      apiReport: { enabled: true, reportFileName: `${entry}.api.md`, reportFolder: scratch, reportTempFolder: join(scratch, "temp") },
      docModel: { enabled: false },
      dtsRollup: { enabled: false },
      tsdocMetadata: { enabled: false },
      newlineKind: "lf",
      messages: {
        compilerMessageReporting: { default: { logLevel: ExtractorLogLevel.Warning } },
        extractorMessageReporting: {
          default: { logLevel: ExtractorLogLevel.Warning },
          // what a field means is asked of options by the shape check, not of `id` and `t`
          "ae-undocumented": { logLevel: ExtractorLogLevel.None },
          // nothing here is alpha or beta: the version says what is settled
          "ae-missing-release-tag": { logLevel: ExtractorLogLevel.None },
          "ae-unresolved-link": { logLevel: ExtractorLogLevel.None },
        },
        // formulas in TeX are no TSDoc
        tsdocMessageReporting: { default: { logLevel: ExtractorLogLevel.None } },
      },
    },
    configObjectFullPath: undefined,
    packageJsonFullPath: resolve("package.json"),
  });
  Extractor.invoke(config, {
    localBuild: true,
    typescriptCompilerFolder: resolve("node_modules", "typescript"),
    messageCallback: (message: ExtractorMessage) => {
      message.handled = true;
      const serious = message.logLevel === ExtractorLogLevel.Warning || message.logLevel === ExtractorLogLevel.Error;
      // a type of another entry is not forgotten: that entry exports it
      const type = message.messageId === "ae-forgotten-export" ? /"(\w+)"/.exec(message.text)?.[1] : undefined;
      // and what a folder forgot is not said again of the main entry
      const known = type !== undefined && (entry === "index" || publicTypes.has(type));
      if (serious && !known && !message.messageId.startsWith("console-api-report"))
        messages.push(message.formatMessageWithLocation(resolve(".")));
    },
  });
  return { text: readFileSync(join(scratch, `${entry}.api.md`), "utf8"), messages };
}

/** Lines that only one of the two texts has. */
function difference(before: string, after: string): string {
  const old = before.split("\n");
  const now = after.split("\n");
  return [
    ...old.filter((line) => !now.includes(line)).map((line) => `- ${line}`),
    ...now.filter((line) => !old.includes(line)).map((line) => `+ ${line}`),
  ].join("\n");
}
