// The tests that may notice a change, as the runner names them: Stryker's own list of test files would leave changes of module-level code unmade.
import { defineConfig } from "vitest/config";
import whole from "../../vitest.config.js";

export default defineConfig({ test: { ...whole.test, include: JSON.parse(process.env.MUTATION_TESTS!) } });
