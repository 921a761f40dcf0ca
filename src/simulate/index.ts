// Pointing and practice with known truth: distributions in; a recording as a device would have written it, or a learner's sessions, and everything that was drawn out.
export type { Bell } from "./compose-movement.js";
export type {
  LearnerCurve,
  LearnerForgetting,
  LearnerSettings,
  LearnerWarmUp,
  SessionNoise,
  SimulateLearnerOptions,
} from "./learner/options.js";
export type {
  Box,
  CaseShares,
  CorrectionModel,
  DisplayModel,
  LatencyModel,
  PlanningModel,
  PressModel,
  PrimaryModel,
  RecorderModel,
  SimulateRecordingOptions,
  SimulationSettings,
  TargetModel,
} from "./options.js";
export type {
  CatchUpModel,
  FollowerModel,
  PursuitDisplayModel,
  PursuitNoiseModel,
  PursuitReachModel,
  PursuitSettings,
  PursuitTargetModel,
  SimulatePursuitOptions,
} from "./pursuit/options.js";
export type { TargetLine } from "./pursuit/target-path.js";
export type { PursuitTruth, TrueCatchUp, TruePursuit, TrueReversal } from "./pursuit/truth.js";
export type { SimulatedLearner, SimulatedSession } from "./simulate-learner.js";
export { simulateLearner } from "./simulate-learner.js";
export type { SimulatedPursuit } from "./simulate-pursuit.js";
export { simulatePursuit } from "./simulate-pursuit.js";
export type { SimulatedRecording } from "./simulate-recording.js";
export { simulateRecording } from "./simulate-recording.js";
export type { SimulatedTrainee, TraineeDay } from "./simulate-trainee.js";
export { simulateTrainee } from "./simulate-trainee.js";
export type {
  PartFigures,
  SimulateTraineeOptions,
  TraineeFatigue,
  TraineeItem,
  TraineeNoise,
  TraineePace,
  TraineePart,
  TraineePartModel,
  TraineeSettings,
  TraineeState,
} from "./trainee/options.js";
export type { TrueComponent, TrueDelays, TrueError, TrueMovement, TrueSequence, Truth, Vector } from "./truth.js";
