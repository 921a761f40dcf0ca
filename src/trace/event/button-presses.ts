import type { Press } from "../types.js";

/** Button number of each bit of a `buttons` mask, as W3C Pointer Events numbers them: bit 1 is the right button (2), bit 2 the middle one (1). */
const BUTTON_OF_BIT: readonly number[] = [0, 2, 1, 3, 4, 5];

/** The bit of a `buttons` mask that belongs to a button number; 0 for -1, which means "none". */
export function bitOfButton(button: number): number {
  if (button < 0) return 0;
  const bit = BUTTON_OF_BIT.indexOf(button);
  return 2 ** (bit < 0 ? button : bit);
}

/** Turns a sequence of `buttons` masks into presses. */
export interface ButtonPresses {
  /** The mask held from time `t` on, with the position there: each bit newly set is a press, each bit cleared the release of its press. */
  readonly update: (t: number, mask: number, x: number, y: number) => void;
  /** The mask found after a stretch that nobody saw: what changed there has no time. Returns how many buttons changed unseen. */
  readonly resume: (mask: number) => number;
  /** The presses so far, in order of time; one whose release was not seen has no `tUp`. */
  readonly presses: readonly Press[];
}

/** Follows the buttons of one pointer, all of them up at first. `by` says what a press of each bit is. */
export function followButtons(by: (bit: number) => "button" | "touch"): ButtonPresses {
  const presses: Press[] = [];
  /** Index into `presses` of each held bit; -1 for a button whose press was not seen. */
  const held = new Map<number, number>();

  const update = (t: number, mask: number, x: number, y: number): void => {
    for (const [bit, at] of held) {
      if (has(mask, bit)) continue;
      held.delete(bit);
      if (at >= 0) presses[at] = { ...presses[at]!, tUp: t };
    }
    for (let bit = 0; 2 ** bit <= mask; bit++) {
      if (!has(mask, bit) || held.has(bit)) continue;
      held.set(bit, presses.length);
      presses.push({ t, by: by(bit), code: String(BUTTON_OF_BIT[bit] ?? bit), x, y });
    }
  };

  const resume = (mask: number): number => {
    let unseen = 0;
    for (const bit of [...held.keys()]) {
      if (has(mask, bit)) continue;
      held.delete(bit);
      unseen++;
    }
    for (let bit = 0; 2 ** bit <= mask; bit++) {
      if (!has(mask, bit) || held.has(bit)) continue;
      held.set(bit, -1);
      unseen++;
    }
    return unseen;
  };

  return { update, resume, presses };
}

function has(mask: number, bit: number): boolean {
  return Math.floor(mask / 2 ** bit) % 2 === 1;
}
