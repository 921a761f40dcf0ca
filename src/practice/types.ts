import type { Estimate, Reason } from "../math/estimate.js";
import type { Acquisition } from "../movement/types.js";
import type { PaceAdvice } from "../pacing/types.js";
import type { Equipment } from "../trace/types.js";

/** The four trainable parts of an aimed movement. */
export type Part = "primary" | "correction" | "stopAndPress" | "nextTarget";

/** One sitting, analysed: when, with what, and its acquisitions in order. */
export interface PractisedSession {
  /** ISO 8601 with offset; the zero of the times in `rows`. */
  readonly startedAt: string;
  readonly equipment: Equipment;
  readonly rows: readonly Acquisition[];
}

/** How well a statement is supported: by the person's own data for a diagnosis, by published studies for a plan. */
export type Evidence = "strong" | "moderate" | "weak" | "commonPractice";

/** Something that could make a part look weak without being it, ruled in or out before any part is named. */
export interface Ruling {
  readonly factor: "sampling" | "equipment" | "pace" | "fatigue";
  /** `limits`: it explains what is seen, or hides it. `ruledOut`: it cannot. `cannotTell`: what would decide was not recorded. */
  readonly ruling: "limits" | "ruledOut" | "cannotTell";
  /** One sentence with the figures that decided. */
  readonly reason: string;
  /** The parts it touches. */
  readonly parts: readonly Part[];
  /** Seconds per acquisition that it explains, where that can be said. */
  readonly effect?: Estimate;
}

/** What one part costs beyond the reference, at the same distances and sizes and given what it received. */
export interface PartFinding {
  readonly part: Part;
  /** Seconds per acquisition beyond the reference, a known delay of the equipment taken off (see the rulings); negative is quicker. Its interval takes sessions as units. */
  readonly excess: Estimate;
  /** Of the excess: the part's own time, and the time that its errors cost later parts. */
  readonly own: Estimate;
  readonly passedOn: Estimate;
  /** Its share of the sum of all excesses above 0, in [0, 1]; absent when no excess is above 0. */
  readonly share?: number;
  /** Share of the resampled sessions in which this part cost most; against a group, parts within what members ordinarily differ by are no rivals. */
  readonly probabilityLargest: number;
  /** Smallest excess that these sessions could tell from none, seconds. Absent where sessions are too few. */
  readonly detectable?: number;
  /** Strong, moderate or weak support for an excess above 0; absent when there is none. */
  readonly evidence?: Evidence;
  /** Rulings that touch this part and do not rule the factor out. */
  readonly confounds: readonly Ruling["factor"][];
}

/** What holds the person back, in one word and its object. */
export type DiagnosisVerdict =
  | { readonly kind: "weakestPart"; readonly part: Part }
  | { readonly kind: "noWeakestPart" }
  | { readonly kind: "limitedBy"; readonly factor: Ruling["factor"] }
  | { readonly kind: "cannotTell"; readonly why: Reason };

/** How often the first press would have hit if one thing had been as in the reference. */
export interface Counterfactual {
  readonly change: "primaryError" | "correctiveGain" | "slip";
  readonly hitShare: Estimate;
}

/** Where time and accuracy sit, against a reference. */
export interface Diagnosis {
  readonly header: {
    readonly library: "aimed-movement";
    readonly version: string;
    readonly schema: 1;
    /** `worthwhile`: share of the time per acquisition, chosen. */
    readonly options: { readonly level: number; readonly resamples: number; readonly seed: number; readonly worthwhile: number };
  };
  readonly verdict: DiagnosisVerdict;
  /** Largest excess first. */
  readonly parts: readonly PartFinding[];
  /** In the order in which they were ruled on. */
  readonly rulings: readonly Ruling[];
  /** Sum of the parts' excesses, seconds per acquisition. */
  readonly totalExcess: Estimate;
  /** Hits at the first press, as it was and as it would have been. */
  readonly hitShare: Estimate;
  readonly counterfactuals: readonly Counterfactual[];
  readonly reference: {
    readonly kind: "ownBest" | "earlier" | "group";
    readonly sessions: number;
    readonly people: number;
    readonly rows: number;
  };
  readonly sessions: number;
  readonly rows: number;
}

/** A stretch of practice, a test or a rest. */
export interface PlanItem {
  readonly kind: "test" | "part" | "combined" | "rest";
  /** The part that is drilled; only with kind `part`. */
  readonly part?: Part;
  /** Minutes. Rests and tests stand beside the practice. */
  readonly minutes: number;
  /** Time per movement to start at, seconds, and the share of first presses that should hit. Absent where no pace was given. */
  readonly pace?: { readonly movementTime: number; readonly hitShare: number };
  /** What to do, in one sentence. */
  readonly what: string;
  /** Why, in one sentence. */
  readonly reason: string;
  readonly evidence: Evidence;
  readonly caution?: string;
}

/** A number that somebody has chosen, printed as a choice. */
export interface PlanChoice {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly why: string;
}

/** When to stop or to change the part, as a rule that a program can apply. */
export interface StopRule {
  readonly rule: string;
  readonly reason: string;
  readonly evidence: Evidence;
}

/** What to practise next, for how long, at what pace and when to stop: plain data. */
export interface PracticePlan {
  readonly header: { readonly library: "aimed-movement"; readonly version: string; readonly schema: 1 };
  /** Minutes of practice in all, rests and tests aside. */
  readonly minutes: number;
  /** Days a week. */
  readonly days: number;
  /** What is done on one day, in order. */
  readonly items: readonly PlanItem[];
  /** Whether parts are drilled one after the other or mixed. */
  readonly order: { readonly kind: "blocked" | "mixed"; readonly reason: string; readonly evidence: Evidence };
  readonly spacing: { readonly what: string; readonly reason: string; readonly evidence: Evidence };
  /** When to test: every so many days, and after how many hours without practice. */
  readonly tests: { readonly everyDays: number; readonly retentionHours: number; readonly reason: string; readonly evidence: Evidence };
  readonly stopRules: readonly StopRule[];
  /** What to change when a plateau was found; absent otherwise. */
  readonly plateau?: { readonly what: string; readonly reason: string; readonly evidence: Evidence };
  /** The pace advice the plan follows, as it was given. */
  readonly pace?: PaceAdvice;
  readonly choices: readonly PlanChoice[];
  /** Always there: pain, numbness, breaks, and who to ask. */
  readonly cautions: readonly string[];
}
