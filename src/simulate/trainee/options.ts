/** The four parts of an aimed movement. */
export type TraineePart = "primary" | "correction" | "stopAndPress" | "nextTarget";

/** A number for every part. */
export type PartFigures = Readonly<Record<TraineePart, number>>;

/** One part of the trainee: level L = asymptote + excess, seconds per acquisition. */
export interface TraineePartModel {
  /** Level without practice, at least the asymptote. Defaults 0.42, 0.30, 0.20 and 0.30 s in the order primary, correction, stop and press, next target. */
  readonly start: number;
  /** Level that practice leads to, above 0. Defaults 0.24, 0.14, 0.10 and 0.16 s. */
  readonly asymptote: number;
  /** Share of the excess that the first effective minute takes off, at least 0, default 0.003. */
  readonly rate: number;
}

/** How learning depends on pace. */
export interface TraineePace {
  /** Hit share at which a minute teaches most, in (0, 1), default 0.85. */
  readonly best: number;
  /** Standard deviation, in hit share, of the bell by which it teaches less elsewhere; above 0, default 0.15. */
  readonly width: number;
  /** Hit share at the trainee's own pace, taken where an item has none, in (0, 1), default 0.8. */
  readonly own: number;
  /** Standard deviations of the endpoint that a slower pace gains per unit of ln(movement time), at least 0, default 4. */
  readonly steepness: number;
}

/** What long practice costs on its day. */
export interface TraineeFatigue {
  /** Minutes of practice without loss, at least 0, default 40. */
  readonly after: number;
  /** Beyond them a minute is worth exp(-(minutes - after)/fade); above 0, default 40. */
  readonly fade: number;
  /** Minutes of practice that one minute of rest makes undone, at least 0, default 4. */
  readonly recovery: number;
  /** Effective minutes m of one part on one day count as massing (1 - exp(-m/massing)); above 0, default 60. Lower, long drills of one part bring less. */
  readonly massing: number;
}

/** Scatter of what is measured; it changes nothing in what is learned. */
export interface TraineeNoise {
  /** Standard deviation of a log-normal factor on everything of one day, mean 1, default 0.02. */
  readonly session: number;
  /** Its correlation from day to day, in (-1, 1), default 0.3. */
  readonly autocorrelation: number;
  /** Standard deviation of a factor of its own for every part and day, default 0.03. */
  readonly part: number;
}

/** A stretch of a day. The items of a practice plan have this shape. */
export interface TraineeItem {
  /** `part` and `combined` teach; `rest` recovers; a `test` does neither. */
  readonly kind: "test" | "part" | "combined" | "rest";
  /** The part that is drilled; only with kind `part`. */
  readonly part?: TraineePart;
  /** At least 0. */
  readonly minutes: number;
  /** Movement time, seconds, above 0. Default: the trainee's own pace. */
  readonly pace?: { readonly movementTime: number };
}

/** A trainee between two days. */
export interface TraineeState {
  /** Days gone by, 0 at first. */
  readonly day: number;
  /** What is still to be learned, seconds per acquisition. */
  readonly excess: PartFigures;
  /** The day's noise in standard deviations; carried on by the autocorrelation. */
  readonly noise: number;
}

/** Options of `simulateTrainee`; a group may be given in part. */
export interface SimulateTraineeOptions {
  /** Whole number of 32 bits, default 1. It moves the noise alone: what is learned has no chance in it. */
  readonly seed?: number;
  /** How the excess falls with effective minutes n. `exponential`: exp(-rate n); `power`: (1 + rate n/exponent)^-exponent. Default "exponential". */
  readonly law?: "exponential" | "power";
  /** Exponent of `power`, above 0, default 1. Raised, it comes closer to the exponential. */
  readonly exponent?: number;
  /** The parts; what is not given has the defaults of `TraineePartModel`. */
  readonly parts?: Partial<Readonly<Record<TraineePart, Partial<TraineePartModel>>>>;
  /** Minutes that one minute of the outer part is worth to the inner one, at least 0, default 0.1 from every part to every other. */
  readonly transfer?: Partial<Readonly<Record<TraineePart, Partial<Readonly<Record<TraineePart, number>>>>>>;
  /** Minutes that one minute of combined practice is worth to every part, at least 0, default 0.35. */
  readonly combined?: number;
  /** How learning depends on pace. */
  readonly pace?: Partial<TraineePace>;
  /** What long practice costs. */
  readonly fatigue?: Partial<TraineeFatigue>;
  /** Share of what was learned that is lost overnight, practised or not, 0 to 1, default 0.004. */
  readonly forgetting?: number;
  /** Scatter of what is measured. */
  readonly noise?: Partial<TraineeNoise>;
  /** What is done on each day, in order; an empty list is a day off. Default: ten days of 10 minutes of each part, 5 of rest and 20 combined. */
  readonly days?: readonly (readonly TraineeItem[])[];
  /** Where to go on: the `state` that an earlier call with the same other options gave. Default: a trainee who has not practised. */
  readonly from?: TraineeState;
}

/** The options with every default filled in, `days` and `from` aside. */
export interface TraineeSettings {
  readonly seed: number;
  readonly law: "exponential" | "power";
  readonly exponent: number;
  readonly parts: Readonly<Record<TraineePart, TraineePartModel>>;
  readonly transfer: Readonly<Record<TraineePart, PartFigures>>;
  readonly combined: number;
  readonly pace: TraineePace;
  readonly fatigue: TraineeFatigue;
  readonly forgetting: number;
  readonly noise: TraineeNoise;
}
