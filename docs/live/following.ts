// The following task: a press on the target sets it moving; its place is written down in each frame that shows it.
import type { Press } from "../../src/trace/types.js";
import type { Point } from "./layout.js";
import type { PursuitPath } from "./pursuit-path.js";
import { createNews, isOn, type Task } from "./task.js";

export interface FollowingPlan {
  readonly path: PursuitPath;
  readonly diameter: number;
  readonly seconds: number;
  /** What the path was drawn by, for the record. */
  readonly seed: number;
}

const ID = "moving";

export function createFollowing({ path, diameter, seconds, seed }: FollowingPlan): Task {
  const news = createNews();
  const track: { t: number[]; x: number[]; y: number[] } = { t: [], x: [], y: [] };
  let begun: number | undefined;
  let over: number | undefined;

  const write = (t: number, { x, y }: Point): void => {
    track.t.push(t);
    track.x.push(x);
    track.y.push(y);
  };
  const trial = (tStart: number) =>
    ({ id: "following", kind: "pursue", tStart, goals: [ID], block: "following", condition: { seconds, seed } }) as const;

  const end = (t: number): void => {
    over = t;
    if (begun === undefined) return;
    const { t: times, x, y } = track;
    const last = times[times.length - 1]!;
    const at = { t: Float64Array.from(times), x: Float64Array.from(x), y: Float64Array.from(y) };
    news.target({ id: ID, tShown: times[0]!, tGone: last, shape: { kind: "circle", diameter }, at });
    news.trial({ ...trial(begun), tEnd: last });
  };

  const judge = (press: Press): string | undefined => {
    const shown = track.t[0];
    if (shown === undefined || begun !== undefined || press.t < shown || !isOn(path.at(0), diameter, press)) return undefined;
    begun = press.t;
    write(begun, path.at(0));
    news.trial(trial(begun));
    return ID;
  };

  return {
    frame: (t) => {
      if (over === undefined && begun !== undefined && t - begun >= seconds) end(t);
      if (over !== undefined) return [];
      const place = path.at(begun === undefined ? 0 : Math.max(0, t - begun));
      // a frame may have begun just before the press that it is told of
      if (track.t.length === 0 || (begun !== undefined && t > begun)) write(t, place);
      return [{ ...place, diameter, isNext: true }];
    },
    judge,
    isSettled: () => true,
    news: news.take,
    breakOff: (t) => {
      if (over === undefined) end(t);
    },
    overAt: () => over,
    words: () => {
      if (over !== undefined) return { asks: "", progress: "" };
      return begun === undefined
        ? { asks: "Press the filled circle to set it moving, then keep the pointer on it.", progress: "" }
        : { asks: "", progress: `Following, ${seconds} s` };
    },
  };
}
