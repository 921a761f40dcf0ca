import type { Duration, LatencyStage, LatencyStages } from "../types.js";
import { durationSpread } from "./duration.js";

/** A stage as it is worked out: mean and standard deviation from event to event, and how far the mean itself is unsure. */
type Worked = Omit<LatencyStage, "stage">;

/** The same at every event, but known only so far. */
function constant(given: Duration): Worked {
  const { mean, sd, low, high } = durationSpread(given);
  return { mean, sd: 0, doubt: sd, low, high };
}

/** A wait for the next tick of a clock: anywhere within an interval, half of it on average. */
function wait(interval: number): Worked {
  return { mean: interval / 2, sd: interval / Math.sqrt(12), doubt: 0, low: 0, high: interval };
}

/** The stages in the order in which a movement passes through them; those that cannot be worked out are left for the caller to name. */
export function workStages(given: LatencyStages): { readonly known: LatencyStage[]; readonly unknown: LatencyStage["stage"][] } {
  const { reportHz, transfer, operatingSystem, refreshHz, frameCapHz, render, queuedFrames, pixelResponse } = given;
  const shown = refreshHz === undefined ? undefined : 1 / refreshHz;
  const made = shown === undefined ? undefined : 1 / Math.min(refreshHz!, frameCapHz ?? refreshHz!);
  const stages: readonly [LatencyStage["stage"], Worked | undefined][] = [
    ["report", reportHz === undefined ? undefined : wait(1 / reportHz)],
    ["transfer", transfer === undefined ? undefined : constant(transfer)],
    ["operatingSystem", operatingSystem === undefined ? undefined : constant(operatingSystem)],
    ["frameWait", made === undefined ? undefined : wait(made)],
    ["render", render === undefined ? undefined : constant(render)],
    ["queue", queuedFrames === undefined || shown === undefined ? undefined : constant(queuedFrames * shown)],
    // the picture is written from top to bottom: a target's place on the screen decides
    ["scanOut", shown === undefined ? undefined : wait(shown)],
    ["pixelResponse", pixelResponse === undefined ? undefined : constant(pixelResponse)],
  ];
  return {
    known: stages.flatMap(([stage, worked]) => (worked === undefined ? [] : [{ stage, ...worked }])),
    unknown: stages.flatMap(([stage, worked]) => (worked === undefined ? [stage] : [])),
  };
}
