import type { Diagnosis, DiagnosisVerdict, Part, Ruling } from "../types.js";

/** Share of resamples in which a part must cost most to be named. */
const LEAST_CHANCE = 0.8;
/** An excess of this share of the reference's time must not be able to hide, else nothing is said of the parts. */
const TELLING = 0.15;

/** What the verdict is reached from. */
export interface VerdictInput {
  readonly enough: boolean;
  readonly rulings: readonly Ruling[];
  readonly parts: Diagnosis["parts"];
  /** The part that stands out most, with the equipment's share taken off. */
  readonly leader: Part | undefined;
  /** Seconds per acquisition that the reference takes. */
  readonly expected: number;
}

/** Sampling, enough data, equipment, pace, tiredness, and only then a part: the order in which other explanations are excluded. */
export function reachVerdict({ enough, rulings, parts, leader, expected }: VerdictInput): DiagnosisVerdict {
  const ruled = (factor: Ruling["factor"]): Ruling => rulings.find((one) => one.factor === factor)!;
  const limits = (factor: Ruling["factor"]): boolean => {
    const { ruling, parts: touched } = ruled(factor);
    return ruling === "limits" && (leader === undefined || touched.includes(leader));
  };
  if (ruled("sampling").ruling === "limits") return { kind: "limitedBy", factor: "sampling" };
  if (!enough) return { kind: "cannotTell", why: "tooFew" };
  if (ruled("equipment").ruling === "cannotTell") return { kind: "cannotTell", why: "mixedEquipment" };
  // its share is known and taken off: it is all that is left to name when no part stands out without it
  if (leader === undefined && ruled("equipment").ruling === "limits" && secondsOf(ruled("equipment")) > 0) {
    return { kind: "limitedBy", factor: "equipment" };
  }
  if (limits("pace")) return { kind: "limitedBy", factor: "pace" };
  if (limits("fatigue")) return { kind: "limitedBy", factor: "fatigue" };
  const most = parts.find(({ part }) => part === leader);
  if (most !== undefined)
    return most.probabilityLargest >= LEAST_CHANCE ? { kind: "weakestPart", part: most.part } : { kind: "noWeakestPart" };
  const blind = parts.some(({ detectable }) => detectable === undefined || detectable > TELLING * expected);
  return blind ? { kind: "cannotTell", why: "notIdentified" } : { kind: "noWeakestPart" };
}

function secondsOf({ effect }: Ruling): number {
  return effect?.ok === true ? effect.value : 0;
}
