import { isInside } from "../../trace/shape/target-shape.js";
import type { Mark, Press, Trace } from "../../trace/types.js";
import type { Resolution } from "../row-parts.js";
import type { Acquisition, Flag, Offset, Submovement, Times } from "../types.js";
import { aimFrom } from "./aim.js";
import type { Attempt } from "./attempts.js";
import { budgetOf } from "./budget.js";
import { clutchStretches, type Stretch } from "./clutch.js";
import { describeCorrectionPhase, describeCorrections } from "./describe-corrections.js";
import { describeEconomy } from "./describe-economy.js";
import { describePress } from "./describe-press.js";
import { describeStop } from "./describe-stop.js";
import { markEnd } from "./held-entries.js";
import { type LocalFrame, localFrame, localTarget, type Point, toLocal, toOffset } from "./local-frame.js";
import { profileOver } from "./motion.js";
import { placeIn } from "./place-in.js";
import { positionAt } from "./position-at.js";
import { isTrack, targetAt } from "./target-position.js";
import { type DescribeSettings, HORIZON, type View, viewAttempt } from "./view-attempt.js";

const FLAG_OF_MARK = { gap: "missingData", lift: "clutch", edge: "edge", hidden: "hidden", gain: "gainChanged" } as const satisfies Record<
  Mark["kind"],
  Flag
>;

/** The row of one attempt from the samples about it; the attempt before ended at `since`. */
export function describeAttempt(
  attempt: Attempt,
  since: number,
  samples: Trace,
  marks: readonly Mark[],
  settings: DescribeSettings,
): Acquisition {
  const { target, go, end, presses } = attempt;
  const { quantum } = settings;
  const first = presses[0];
  const until = first?.t ?? end;
  const frame = localFrame(settings.space, target, go);
  const local = toLocal(frame, samples);
  const view = viewAttempt(local, attempt, since, until, frame, settings);
  const begin = view.strokes[0]?.start ?? go;
  const reach = Math.min(settings.maxGap, HORIZON);
  // filtered where there is a profile, as recorded elsewhere
  const place = (t: number): Point | undefined => placeIn(view.pointer, t) ?? positionAt(local, t, reach);
  const scaleAt = isTrack(target.at) ? (t: number): number => targetAt(target, t).scale : () => 1;
  const aim = aimFrom(place(begin), localTarget(frame, target, begin), target);
  const clutches = clutchStretches(view.strokes, aim, marks);
  const primary = primaryOf(view.strokes, clutches);
  const moved = primary === undefined ? undefined : boundaries(view, primary, until);
  const offset = (t: number | undefined, p: Point | undefined = t === undefined ? undefined : place(t)): Offset | undefined => {
    if (t === undefined || p === undefined) return undefined;
    const centre = localTarget(frame, target, t);
    return toOffset(p.x - centre.x, p.y - centre.y, aim.axis, target.shape, centre.scale);
  };
  const errors = {
    primary: offset(moved?.primaryEnd),
    stop: offset(moved?.stop),
    press: first && offset(first.t, pressAt(first, frame, local, reach)),
  };
  const up = presses[presses.length - 1]?.tUp;
  const released = up !== undefined && up <= end + HORIZON;
  const short = aim.amplitude !== undefined && errors.primary?.along !== undefined && errors.primary.along < -aim.amplitude / 2;
  const times: Times = {
    go,
    ...(moved && primary && { onset: moved.onset, peak: primary.peak, primaryEnd: moved.primaryEnd, stop: moved.stop }),
    ...(first && { press: first.t }),
    ...(released && { up }),
    end,
  };
  const flags = new Set<Flag>(view.flags);
  if (aim.amplitude === undefined) flags.add("missingData");
  else if (aim.axis === undefined) flags.add("noAxis");
  if (begin < go) flags.add("beforeGo");
  if (short) flags.add("shortPrimary");
  if (clutches.length > 0) flags.add("clutch");
  if (isTrack(target.at)) flags.add("movingTarget");
  if (first !== undefined && !released) flags.add("longPress");
  const from = Math.min(go, begin);
  for (const mark of marks) if (mark.t < end && (mark.t >= from || markEnd(mark) > from)) flags.add(FLAG_OF_MARK[mark.kind]);

  const lies = (t: number, x: number, y: number, margin = 0): boolean => isInside(target.shape, x, y, scaleAt(t), margin);
  const corrections =
    primary === undefined || moved === undefined
      ? []
      : describeCorrections(
          view.strokes.filter((stroke) => stroke.peak > primary.peak),
          primary,
          {
            // a stroke lies within a profile, so both of its ends have a place
            fromCentre: (t) => minus(place(t)!, localTarget(frame, target, t)),
            offset: (t) => offset(t)!,
            lies,
            axis: aim.axis,
            quantum,
            primaryPeak: primary.peak,
            primaryEnd: moved.primaryEnd,
          },
        );
  const profile = profileOver(view.relative, Math.min(moved?.onset ?? until, until), Math.max(until, end));
  const path = profile && moved && describeEconomy(profile, { ...moved, until, end }, aim.axis, quantum, lies);
  const firstUp = first?.tUp !== undefined && first.tUp <= end + HORIZON ? first.tUp : undefined;
  const pressed = first && {
    press: first.t,
    up: firstUp,
    stop: view.strokes[view.strokes.length - 1]?.end,
    lost: marks.find((mark) => (mark.kind === "gap" || mark.kind === "hidden") && mark.t >= first.t)?.t,
    pressedInMotion: view.pressedInMotion,
    axis: aim.axis,
    peakSpeed: primary?.peakSpeed ?? 0,
    noise: settings.noise,
    until: end + HORIZON,
    inside: errors.press?.inside,
    lies,
  };
  return {
    trial: attempt.trial.id,
    target: target.id,
    block: attempt.trial.block,
    outcome: attempt.outcome,
    pressedInMotion: view.pressedInMotion,
    times,
    budget: budgetOf(times, until, view.pressedInMotion, clutches),
    ...(aim.amplitude !== undefined && { amplitude: aim.amplitude }),
    width: aim.width,
    ...(primary && { peakSpeed: primary.peakSpeed }),
    submovements: view.strokes,
    corrections,
    ...(path &&
      errors.primary &&
      errors.stop && {
        correctionPhase: describeCorrectionPhase(corrections, errors.primary, errors.stop, path.correctionPath, attempt.outcome !== "hit"),
      }),
    ...(profile &&
      moved &&
      primary && { stop: describeStop(profile, { ...moved, primaryStart: primary.start, peak: primary.peak, until }, aim, quantum) }),
    ...(pressed && { pressing: describePress(profile, pressed) }),
    ...(path && { economy: path.economy }),
    ...resolutionOf(view, settings),
    errors: {
      ...(errors.primary && { primary: errors.primary }),
      ...(errors.stop && { stop: errors.stop }),
      ...(errors.press && { press: errors.press }),
    },
    flags: [...flags],
  };
}

/** The instants that split the budget: in order, whatever rounding of the estimates says. */
function boundaries(view: View, primary: Submovement, until: number): { onset: number; primaryEnd: number; stop: number } {
  const onset = view.strokes[0]!.start;
  const last = view.strokes[view.strokes.length - 1]!.end;
  // a pointer found at rest at the press has stopped by then
  const stop = view.pressedInMotion ? last : Math.min(last, until);
  return { onset, primaryEnd: Math.min(primary.end, stop), stop };
}

/** The fastest stroke, of those after the last clutch when there was one. */
function primaryOf(strokes: readonly Submovement[], clutches: readonly Stretch[]): Submovement | undefined {
  const from = clutches[clutches.length - 1]?.to ?? Number.NEGATIVE_INFINITY;
  return strokes
    .filter((stroke) => stroke.start >= from)
    .reduce<Submovement | undefined>(
      (best, stroke) => (best === undefined || stroke.peakSpeed > best.peakSpeed ? stroke : best),
      undefined,
    );
}

/** Where a press was made: by its own word, else where the samples had the pointer. */
function pressAt(press: Press, frame: LocalFrame, local: Trace, reach: number): Point | undefined {
  if (press.x === undefined || press.y === undefined) return positionAt(local, press.t, reach);
  return { x: (press.x - frame.x) * frame.shrink, y: press.y - frame.y };
}

function minus(a: Point, b: Point): Point {
  return { x: a.x - b.x, y: a.y - b.y };
}

function resolutionOf(view: View, { sampleRateHz, quantum, noise, positionNoise }: DescribeSettings): { resolution?: Resolution } {
  if (sampleRateHz === undefined || view.pointer.length === 0) return {};
  return { resolution: { sampleRateHz, quantum, positionNoise, speedNoise: noise } };
}
