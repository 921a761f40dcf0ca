// What a simulation has drawn before anything is recorded; times in seconds, positions in the recording's space.
import type { Random } from "../math/random.js";
import type { Stroke } from "./compose-movement.js";
import type { Frame } from "./frame.js";
import type { SimulationSettings } from "./options.js";
import type { Plan } from "./plan-movement.js";
import type { Sight } from "./sight.js";
import type { TremorSpell } from "./tremor.js";
import type { TrueComponent, TrueDelays, TrueSequence, Vector } from "./truth.js";

/** A target; `centre` is where it is when it appears at `shown`. */
export interface DrawnTarget {
  readonly shown: number;
  readonly centre: Vector;
  readonly width: number;
  readonly velocity: Vector;
}

/** A press as drawn. */
export interface DrawnPress {
  readonly t: number;
  readonly tUp: number;
  /** Displacement in the tangent plane. */
  readonly slip: Vector;
}

/** What a sequence makes of the movement to one of its targets. */
export interface Approach {
  /** Seconds added to the latency, and how many of them are a planted hesitation. */
  readonly delay: number;
  readonly hesitation: number;
  /** Seconds before go that the hand leaves; absent when it waits. */
  readonly lead?: number;
  /** The target that the aim is pulled toward; absent when nothing pulls. */
  readonly toward?: DrawnTarget;
}

/** One acquisition; whether it hit is known once the whole path is. */
export interface DrawnMovement {
  readonly target: DrawnTarget;
  readonly approach: Approach;
  readonly go: number;
  /** Where the hand rests before. */
  readonly start: Vector;
  /** Absent when nothing had to move. */
  readonly plan?: Plan;
  readonly recovery?: TrueComponent;
  /** None after a timeout; two when the first missed and was repeated. */
  readonly presses: readonly DrawnPress[];
  readonly end: number;
  /** How late things were seen. */
  readonly delays: TrueDelays;
}

/** One trial: its targets, and the movements to as many of them as were tried. */
export interface DrawnTrial {
  readonly tStart: number;
  readonly tEnd: number;
  readonly targets: readonly DrawnTarget[];
  readonly movements: readonly DrawnMovement[];
  readonly policy: TrueSequence["policy"];
  /** Numbers of the targets in the order meant. */
  readonly order: readonly number[];
  readonly layout?: number;
}

/** The course a movement takes. */
export type Course = "plain" | "timeout" | "noMovement" | "anticipation" | "clutch";

/** The state that drawing goes through; the lists grow, the hand moves. */
export interface World {
  readonly where: string;
  readonly random: Random;
  /** What planning draws from. */
  readonly planner: Random;
  /** Targets of the layouts that have been shown. */
  readonly layouts: (readonly DrawnTarget[])[];
  readonly settings: SimulationSettings;
  readonly frame: Frame;
  readonly sight: Sight;
  readonly strokes: Stroke[];
  readonly spells: TremorSpell[];
  readonly hand: {
    /** Where it rests once every stroke so far is over: in the recording's space, and in the flat field of simulated units. */
    x: number;
    y: number;
    field: Vector;
    /** End of the last component, slips aside. */
    stop: number;
  };
}
