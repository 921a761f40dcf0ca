// Stryker's runner for vitest counts tests that fail. A change that keeps a test file from being read at all leaves no test to fail, and would pass
// for unnoticed, though `npm test` ends with an error: here it counts as noticed.
import { declareFactoryPlugin, type Injector, type PluginContext, PluginKind, tokens } from "@stryker-mutator/api/plugin";
import { MutantRunStatus, type TestRunner } from "@stryker-mutator/api/test-runner";
import { strykerPlugins as vitestPlugins } from "@stryker-mutator/vitest-runner";

/** What the runner for vitest holds of the test files of its latest run. */
interface Held {
  readonly ctx: { readonly state: { getFiles(): readonly { readonly name: string; readonly result?: { readonly state?: string } }[] } };
}

function createCollectingRunner(injector: Injector<PluginContext>): TestRunner {
  const [{ factory }] = vitestPlugins as unknown as [{ factory: (injector: Injector<PluginContext>) => TestRunner & Held }];
  const runner = factory(injector);
  return {
    capabilities: () => runner.capabilities(),
    init: async () => runner.init?.(),
    dryRun: (options) => runner.dryRun(options),
    mutantRun: async (options) => {
      const result = await runner.mutantRun(options);
      const unread = runner.ctx.state.getFiles().find((file) => file.result?.state === "fail");
      if (result.status !== MutantRunStatus.Survived || unread === undefined) return result;
      return {
        status: MutantRunStatus.Killed,
        killedBy: [],
        failureMessage: `${unread.name} could not be read`,
        nrOfTests: result.nrOfTests,
      };
    },
    dispose: async () => runner.dispose?.(),
  };
}
createCollectingRunner.inject = tokens("$injector");

export const strykerPlugins = [declareFactoryPlugin(PluginKind.TestRunner, "collecting", createCollectingRunner)];
