// What a block of trials asks for and how it answers: the field draws it, the recorder's chunks are given to it.
import { isInside } from "../../src/trace/shape/target-shape.js";
import type { Press, Target, Trial } from "../../src/trace/types.js";
import type { Point } from "./layout.js";

/** A target as it is drawn: the one to press or follow now, or one that comes later. */
export interface Circle extends Point {
  readonly diameter: number;
  readonly isNext: boolean;
}

export interface Task {
  /** What the frame that begins at `t` shows. Called once in each frame, in order. */
  readonly frame: (t: number) => readonly Circle[];
  /** The target that a press counts for: `null` when for none, `undefined` when it is no matter of counting. Called once for each press, in order. */
  readonly judge: (press: Press) => string | null | undefined;
  /** Whether all that was judged is final, with the pointer here: while it is not, chunks wait. */
  readonly isSettled: (pointer: Point | undefined) => boolean;
  /** Targets and trials that are new or have changed since the last call. */
  readonly news: () => { targets: Target[]; trials: Trial[] };
  /** Ends what is under way. */
  readonly breakOff: (t: number) => void;
  /** When the task was over; `undefined` before. */
  readonly overAt: () => number | undefined;
  /** What it asks for now, and how far it has come: one of both is empty. */
  readonly words: () => { readonly asks: string; readonly progress: string };
}

/** Whether a point lies on a circle, by the rule of the analysis. */
export function isOn({ x, y }: Point, diameter: number, point: { readonly x?: number; readonly y?: number }): boolean {
  const { x: px, y: py } = point;
  return px !== undefined && py !== undefined && isInside({ kind: "circle", diameter }, px - x, py - y, 1);
}

/** What was added since it was last taken. */
export function createNews(): {
  readonly target: (target: Target) => void;
  readonly trial: (trial: Trial) => void;
  readonly take: Task["news"];
} {
  let targets: Target[] = [];
  let trials: Trial[] = [];
  return {
    target: (target) => targets.push(target),
    trial: (trial) => trials.push(trial),
    take: () => {
      const taken = { targets, trials };
      targets = [];
      trials = [];
      return taken;
    },
  };
}
