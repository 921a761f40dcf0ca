// Stryker cannot be told which mutants to run, only which places to change. A place holds several mutants, so that a checker turns away
// those that were not drawn; Stryker then leaves them out of its account.
import { type Checker, type CheckResult, CheckStatus } from "@stryker-mutator/api/check";
import type { Mutant, StrykerOptions } from "@stryker-mutator/api/core";
import { commonTokens, declareFactoryPlugin, PluginKind, tokens } from "@stryker-mutator/api/plugin";
import { keyOf } from "./mutants.js";

function createSampleChecker(options: StrykerOptions): Checker {
  const drawn = new Set(options.drawn as string[]);
  return {
    init: async () => {},
    check: async (mutants) => Object.fromEntries(mutants.map((mutant) => [mutant.id, judge(drawn, mutant)])),
    group: async (mutants) => [mutants.map(({ id }) => id)],
  };
}
createSampleChecker.inject = tokens(commonTokens.options);

const judge = (drawn: ReadonlySet<string>, mutant: Mutant): CheckResult =>
  drawn.has(keyOf(mutant)) ? { status: CheckStatus.Passed } : { status: CheckStatus.CompileError, reason: "not drawn" };

export const strykerPlugins = [declareFactoryPlugin(PluginKind.Checker, "sample", createSampleChecker)];
