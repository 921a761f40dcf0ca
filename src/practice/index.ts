// What holds a person back, what to practise next, and when to stop.
export type { BlocksVerdict, PractisedBlock, StopCause } from "./blocks/types.js";
export type { DiagnoseOptions } from "./diagnose.js";
export { diagnose } from "./diagnose.js";
export type { DiagnoseReference } from "./diagnosis/reference-kind.js";
export type { JudgeBlocksOptions } from "./judge-blocks.js";
export { judgeBlocks } from "./judge-blocks.js";
export type { PlanDiagnosis } from "./plan/first-item.js";
export type { PlanPracticeOptions } from "./plan-practice.js";
export { planPractice } from "./plan-practice.js";
export type {
  Counterfactual,
  Diagnosis,
  DiagnosisVerdict,
  Evidence,
  Part,
  PartFinding,
  PlanChoice,
  PlanItem,
  PracticePlan,
  PractisedSession,
  Ruling,
  StopRule,
} from "./types.js";
