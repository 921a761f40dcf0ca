// What the visitor may say beforehand; all of it may stay as it is.
import type { Equipment } from "../../src/trace/types.js";
import { labelled, make } from "./elements.js";

export interface Settings {
  readonly element: HTMLElement;
  readonly person: () => string;
  readonly equipment: () => Equipment;
  /** Rounds of each condition. */
  readonly rounds: () => number;
  /** Seconds of following. */
  readonly seconds: () => number;
}

export function createSettings(onEquipment: () => void): Settings {
  const person = make("input", { type: "text", value: "visitor", autocomplete: "off" });
  const equipment = make("input", { type: "text", placeholder: "unknown", autocomplete: "off" });
  const refresh = make("input", { type: "number", min: "1", max: "1000", step: "any", placeholder: "unknown" });
  const rounds = choice([
    ["1", "one of each, 44 targets"],
    ["2", "two of each, 88 targets"],
  ]);
  const seconds = choice([
    ["30", "30 seconds"],
    ["60", "60 seconds"],
  ]);
  for (const field of [person, equipment, refresh]) field.addEventListener("change", onEquipment);
  return {
    element: make(
      "fieldset",
      { class: "live-settings" },
      make("legend", {}, "Before you begin (all of it may stay as it is)"),
      labelled("Rounds of tapping", rounds),
      labelled("Length of following", seconds),
      labelled("Name in the recording", person),
      labelled("Equipment", equipment),
      labelled("Refresh rate of the display, Hz", refresh),
    ),
    person: () => person.value.trim() || "visitor",
    equipment: () => ({ id: equipment.value.trim() || "unknown", ...(refresh.valueAsNumber > 0 && { refreshHz: refresh.valueAsNumber }) }),
    rounds: () => Number(rounds.value),
    seconds: () => Number(seconds.value),
  };
}

function choice(options: readonly (readonly [value: string, words: string])[]): HTMLSelectElement {
  return make("select", {}, ...options.map(([value, words]) => make("option", { value }, words)));
}
