// Is the equipment the limit: how evenly and how late the display shows, what a sampling rate can carry, how far the hand has to go, and what a change of it does.
export type { CompareEquipmentOptions } from "./compare-equipment.js";
export { compareEquipment } from "./compare-equipment.js";
export type { ControlGain, ControlGainOptions, ControlSettings } from "./control-gain.js";
export { controlGain } from "./control-gain.js";
export type { DisplayTiming, DisplayTimingOptions } from "./display-timing.js";
export { displayTiming } from "./display-timing.js";
export type { GainCurve, GainPoint, MeasuredGain } from "./gain/gain-curve.js";
export type { LatencyBudget, LatencyBudgetOptions } from "./latency-budget.js";
export { latencyBudget } from "./latency-budget.js";
export type { SamplingConsequences, SamplingSetup } from "./sampling-support.js";
export { samplingSupport } from "./sampling-support.js";
export type { DelayPayment, Duration, EquipmentComparison, EquipmentEffect, EquipmentField, LatencyStage, LatencyStages } from "./types.js";
export type { AngleScale, ViewAngle, ViewAngleOptions, ViewedScreen } from "./view-angle.js";
export { viewAngle } from "./view-angle.js";
