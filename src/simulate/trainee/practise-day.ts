import { normalCdf } from "../../math/normal.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import type { PartFigures, TraineeItem, TraineePart, TraineeSettings } from "./options.js";
import { eachPart } from "./parts.js";

/** What one day of practice did. */
export interface PractisedDay {
  /** Minutes of practice, rests and tests aside. */
  readonly minutes: number;
  /** Minutes that counted for each part: worth of pace, fatigue, transfer and massing taken in. */
  readonly effective: PartFigures;
  /** What is still to be learned the next morning, seconds per acquisition. */
  readonly excess: PartFigures;
}

/** A day of practice and the night after it, from the excess in the morning. No chance in it. */
export function practiseDay(excess: PartFigures, items: readonly TraineeItem[], settings: TraineeSettings): PractisedDay {
  const { parts, transfer, combined, fatigue, forgetting } = settings;
  const worth = { primary: 0, correction: 0, stopAndPress: 0, nextTarget: 0 };
  let [load, minutes] = [0, 0];
  for (const item of items) {
    if (item.kind === "rest") load = Math.max(0, load - fatigue.recovery * item.minutes);
    if (item.kind !== "part" && item.kind !== "combined") continue;
    const fresh = freshMinutes(load, item.minutes, settings) * paceWorth(item, excess, settings);
    for (const part of Object.keys(worth) as TraineePart[]) {
      worth[part] += fresh * (item.kind === "combined" ? combined : transfer[item.part!][part]);
    }
    load += item.minutes;
    minutes += item.minutes;
  }
  const effective = eachPart((part) => -fatigue.massing * Math.expm1(-worth[part] / fatigue.massing));
  const left = eachPart((part) => {
    const untrained = parts[part].start - parts[part].asymptote;
    const learned = afterMinutes(excess[part], untrained, effective[part], parts[part].rate, settings);
    return learned + forgetting * (untrained - learned);
  });
  return { minutes, effective, excess: left };
}

/** Minutes that count of a stretch begun after `load` minutes: the integral of 1 up to `after`, of exp(-(load - after)/fade) beyond. */
function freshMinutes(load: number, minutes: number, { fatigue: { after, fade } }: TraineeSettings): number {
  const faded = (at: number): number => (at <= after ? at : after - fade * Math.expm1(-(at - after) / fade));
  return faded(load + minutes) - faded(load);
}

/** Share of the hits at a pace, and from it what a minute there is worth. */
function paceWorth({ pace }: TraineeItem, excess: PartFigures, settings: TraineeSettings): number {
  const { best, width } = settings.pace;
  return Math.exp(-0.5 * ((hitShareAt(pace?.movementTime, excess, settings) - best) / width) ** 2);
}

/** Hit share at a movement time: that of the own pace, a normal deviate higher for every slower one. The own movement time is that of primary and correction. */
export function hitShareAt(movementTime: number | undefined, excess: PartFigures, { parts, pace }: TraineeSettings): number {
  if (movementTime === undefined) return pace.own;
  const own = parts.primary.asymptote + excess.primary + parts.correction.asymptote + excess.correction;
  return normalCdf(normalQuantile(pace.own) + pace.steepness * Math.log(movementTime / own));
}

/** Excess after so many effective minutes; under the power law the minutes done before follow from how much is left. */
function afterMinutes(excess: number, untrained: number, minutes: number, rate: number, { law, exponent }: TraineeSettings): number {
  if (excess === 0 || untrained === 0) return excess;
  if (law === "exponential") return excess * Math.exp(-rate * minutes);
  const done = (untrained / excess) ** (1 / exponent);
  return untrained * (done + (rate * minutes) / exponent) ** -exponent;
}
