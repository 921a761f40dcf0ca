// Every run draws the same cases, so that a failure repeats; both figures can be raised from outside.
import { fc } from "@fast-check/vitest";

fc.configureGlobal({
  seed: Number(process.env.FC_SEED ?? 20260101),
  numRuns: Number(process.env.FC_RUNS ?? 100),
});
