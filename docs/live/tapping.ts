// The tapping task: rounds of targets on a circle. All targets of a round are there from the start and go one by one, hit or missed; the order is
// known. So a round is one sequence, and each acquisition begins with the press before. The press that begins the round is no acquisition.
import { LONGEST_REPEAT } from "../../src/movement/acquisition/attempts.js";
import type { Press, Target, Trial } from "../../src/trace/types.js";
import type { Condition, Point } from "./layout.js";
import { type Circle, createNews, isOn, type Task } from "./task.js";

export interface Round extends Condition {
  /** In order; the round begins with a press on the first and ends on it. */
  readonly places: readonly Point[];
}

export function createTapping(rounds: readonly Round[]): Task {
  const news = createNews();
  let at = 0;
  /** The frame that first showed the round, the press that began it, and whether that press is surely the last one on the first target. */
  let shown: number | undefined;
  let begun: number | undefined;
  let isSettled = false;
  /** Number of the target to press: 1 to the number of places, of which the last is the first again. */
  let next = 1;
  let lastHit: { readonly place: Point; readonly t: number } | undefined;
  let over: number | undefined;

  const place = (goal: number): Point => rounds[at]!.places[goal % rounds[at]!.places.length]!;
  const idOf = (goal: number): string => `${at + 1}-${goal}`;
  const goals = (): number[] => rounds[at]!.places.map((_, i) => i + 1);
  const target = (goal: number): Target => ({
    id: idOf(goal),
    tShown: shown!,
    shape: { kind: "circle", diameter: rounds[at]!.width },
    at: place(goal),
  });
  const trial = (): Trial => {
    const { amplitude, width } = rounds[at]!;
    const block = `${amplitude} px away, ${width} px wide`;
    return { id: `round ${at + 1}`, kind: "sequence", tStart: begun!, goals: goals().map(idOf), block, condition: { amplitude, width } };
  };

  const settle = (): void => {
    if (isSettled) return;
    isSettled = true;
    for (const goal of goals()) news.target(target(goal));
    news.trial(trial());
  };

  const endRound = (t: number): void => {
    news.trial({ ...trial(), tEnd: t });
    at++;
    shown = undefined;
    begun = undefined;
    isSettled = false;
    next = 1;
    if (at === rounds.length) over = t;
  };

  const judge = (press: Press): string | null => {
    if (over !== undefined || shown === undefined || press.t < shown) return null;
    const { width } = rounds[at]!;
    if (!isSettled && isOn(place(0), width, press)) {
      begun = press.t;
      return null;
    }
    if (begun === undefined) return null;
    settle();
    const isHit = isOn(place(next), width, press);
    if (!isHit && lastHit !== undefined && press.t <= lastHit.t + LONGEST_REPEAT && isOn(lastHit.place, width, press)) return null;
    const id = idOf(next);
    news.target({ ...target(next), tGone: press.t });
    if (isHit) lastHit = { place: place(next), t: press.t };
    if (next === rounds[at]!.places.length) endRound(press.t);
    else next++;
    return isHit ? id : null;
  };

  return {
    frame: (t) => {
      if (over !== undefined) return [];
      shown ??= t;
      const { places, width } = rounds[at]!;
      const circle = (i: number, isNext: boolean): Circle => ({ ...places[i]!, diameter: width, isNext });
      if (begun === undefined) return places.map((_, i) => circle(i, i === 0));
      return goals().flatMap((goal) => (goal < next ? [] : [circle(goal % places.length, goal === next)]));
    },
    judge,
    isSettled: (pointer) => {
      if (begun === undefined || isSettled) return true;
      if (pointer === undefined || isOn(place(0), rounds[at]!.width, pointer)) return false;
      settle();
      return true;
    },
    news: news.take,
    breakOff: (t) => {
      if (over !== undefined) return;
      if (isSettled) news.trial({ ...trial(), tEnd: t });
      over = t;
    },
    overAt: () => over,
    words: () => {
      if (over !== undefined) return { asks: "", progress: "" };
      const round = `Round ${at + 1} of ${rounds.length}`;
      return begun === undefined
        ? { asks: `${round}: press the filled circle to begin.`, progress: "" }
        : { asks: "", progress: `${round}: target ${next} of ${rounds[at]!.places.length}` };
    },
  };
}
