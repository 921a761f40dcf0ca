import type { DisplayTiming, EquipmentComparison } from "../equipment/index.js";
import type { Comparison, LearningCurveFit, PlateauReport } from "../learning/index.js";
import type { Estimate } from "../math/estimate.js";
import type { Summary } from "../movement/summarize.js";
import type { PaceAdvice, PaceRecommendation } from "../pacing/index.js";
import type { Diagnosis, Part, PracticePlan, PractisedSession } from "../practice/types.js";
import type { Pursuit } from "../pursuit/types.js";
import type { SequenceAnalysis } from "../sequence/types.js";
import type { SamplingReport } from "../trace/quality/sampling-report.js";
import type { Equipment, Space } from "../trace/types.js";

/** What a reader of a session must know before its figures are used. */
export type SessionWarning =
  /** No trial names a target: there are movements, but no acquisitions. */
  | "noAcquisitions"
  /** Fewer than 20 acquisitions: spreads are known only to within a factor of about 1.5. */
  | "fewAcquisitions"
  /** A recording was sampled too slowly, too coarsely or with losses: see the warnings in `sampling`. */
  | "sampling"
  /** More than one acquisition in ten has samples missing or boundaries that cannot be told. */
  | "unsoundRows"
  /** The frames shown do not fit the display's stated rate, or were unsteady: see `display`. */
  | "display"
  /** The equipment record says neither how late nor how often the display shows what happens. */
  | "equipmentUnknown";

/** One sitting in figures: all that is needed to compare it, without its samples. Plain data. */
export interface SessionSummary extends PractisedSession {
  readonly header: {
    readonly library: "aimed-movement";
    readonly version: string;
    readonly schema: 1;
    readonly options: { readonly level: number };
  };
  readonly person: string;
  readonly space: Space;
  /** Devices in the order of their recordings, each once. */
  readonly devices: readonly string[];
  /** Minutes from the first go to the last end, the waiting between recordings included. */
  readonly minutes: number;
  /** One report per recording. */
  readonly sampling: readonly SamplingReport[];
  /** From the frames of the recordings, where they have any. */
  readonly display?: DisplayTiming;
  readonly summary: Summary;
  /** One for each recording with trials of several targets. */
  readonly sequences: readonly SequenceAnalysis[];
  readonly pursuits: readonly Pursuit[];
  readonly warnings: readonly SessionWarning[];
}

/** A skill's change, once equipment is allowed for. */
export type SkillVerdict = Comparison["verdict"];

/** One measure of two periods. */
export interface MeasureComparison {
  readonly measure: string;
  /** In words. */
  readonly label: string;
  readonly part?: Part;
  /** As recorded, sessions being the units; `null` where fewer than two sessions of a period have the measure. */
  readonly comparison: Comparison | null;
  /** What the difference of the equipment adds to the measure, where that is known; absent on the same equipment. */
  readonly equipmentEffect?: Estimate;
  /** The comparison's verdict on the same equipment. On other equipment it must hold with the effect at either end of its interval taken off; else `cannotTell`. */
  readonly skill: SkillVerdict;
}

/** Why two periods are hard to compare. */
export type PeriodsWarning =
  /** The equipment differs, or is not known well enough to say that it does not. */
  | "equipment"
  /** Mean difficulty differs by more than a tenth of a bit; the measures are taken at the same difficulty all the same. */
  | "otherTask"
  /** Movements are more than 5 % quicker and hit less, or slower and hit more: a trade, no change of skill. */
  | "otherPace"
  /** Fewer than five sessions in a period. */
  | "fewSessions";

/** One of two periods. */
export interface PeriodSummary {
  readonly sessions: number;
  readonly rows: number;
  readonly from: string;
  readonly to: string;
}

/** What changed between two periods. */
export interface SessionsComparison {
  readonly header: SessionSummary["header"];
  readonly before: PeriodSummary;
  readonly after: PeriodSummary;
  readonly equipment: EquipmentComparison;
  readonly measures: readonly MeasureComparison[];
  readonly warnings: readonly PeriodsWarning[];
}

/** One measure over the sessions. */
export interface MeasureCourse {
  readonly measure: string;
  readonly label: string;
  readonly unit: string;
  /** Number of the session from 1, days since the first one, and the value at the same difficulty; sessions without it are left out. */
  readonly session: readonly number[];
  readonly day: readonly number[];
  readonly value: readonly number[];
  /** Absent below six sessions. */
  readonly curve?: LearningCurveFit;
  /** Absent below eight sessions. */
  readonly plateau?: PlateauReport;
}

/** A stretch of sessions on one set of equipment. */
export interface EquipmentSpell {
  readonly equipment: Equipment;
  readonly from: string;
  readonly to: string;
  readonly sessions: number;
}

/** The answers in words, each a few sentences. */
export interface PracticeAnswers {
  readonly cannotSay: readonly string[];
  readonly costsMost: readonly string[];
  readonly isItReal: readonly string[];
  readonly isItTheEquipment: readonly string[];
  readonly whatNext: readonly string[];
  readonly whenToStop: readonly string[];
}

/** All that the recordings of one person say: from where the time goes to what to practise next. Plain data. */
export interface PracticeReview {
  readonly header: {
    readonly library: "aimed-movement";
    readonly version: string;
    readonly schema: 1;
    readonly options: { readonly level: number; readonly seed: number; readonly minutes: number; readonly wanted: number };
  };
  readonly person: string;
  readonly unit: string;
  readonly from: string;
  readonly to: string;
  readonly sessions: number;
  readonly rows: number;
  readonly spells: readonly EquipmentSpell[];
  /** The recent sessions, on the present equipment, that "now" stands for. */
  readonly recent: { readonly from: string; readonly to: string; readonly sessions: number; readonly summary: Summary };
  /** First sessions against recent ones; absent below four sessions. */
  readonly comparison?: SessionsComparison;
  readonly courses: readonly MeasureCourse[];
  readonly diagnosis: Diagnosis;
  readonly pace: { readonly advice?: PaceAdvice; readonly recommended?: PaceRecommendation };
  readonly plan: PracticePlan;
  readonly answers: PracticeAnswers;
}
