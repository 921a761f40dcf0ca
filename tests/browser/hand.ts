// A hand on a mouse: events put into the browser by its own protocol.
import type { CDPSession } from "playwright-core";

export type Point = readonly [x: number, y: number];

type Button = "left" | "right";

/** Each answers when the browser has the event. `buttons` are those down afterwards; `when` is the event's own time, ms since 1970, default now. */
export interface Hand {
  readonly move: (to: Point, buttons?: number, when?: number) => Promise<unknown>;
  readonly press: (at: Point, button?: Button, buttons?: number, when?: number) => Promise<unknown>;
  readonly release: (at: Point, button?: Button, buttons?: number, when?: number) => Promise<unknown>;
}

export function hand(session: CDPSession): Hand {
  type Kind = "mouseMoved" | "mousePressed" | "mouseReleased";
  const send = (type: Kind, [x, y]: Point, button: "none" | Button, buttons: number, when?: number) => {
    const timestamp = when === undefined ? {} : { timestamp: when / 1000 };
    return session.send("Input.dispatchMouseEvent", {
      type,
      x,
      y,
      button,
      buttons,
      clickCount: type === "mouseMoved" ? 0 : 1,
      ...timestamp,
    });
  };
  return {
    move: (to, buttons = 0, when) => send("mouseMoved", to, "none", buttons, when),
    press: (at, button = "left", buttons = 1, when) => send("mousePressed", at, button, buttons, when),
    release: (at, button = "left", buttons = 0, when) => send("mouseReleased", at, button, buttons, when),
  };
}

export const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
