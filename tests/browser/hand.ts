// A hand on a mouse: events put into the browser by its own protocol.
import type { CDPSession } from "playwright-core";

export type Point = readonly [x: number, y: number];

type Button = "left" | "right";

/** Each answers when the browser has the event; `buttons` are those down afterwards. */
export interface Hand {
  readonly move: (to: Point, buttons?: number) => Promise<unknown>;
  readonly press: (at: Point, button?: Button, buttons?: number) => Promise<unknown>;
  readonly release: (at: Point, button?: Button, buttons?: number) => Promise<unknown>;
}

export function hand(session: CDPSession): Hand {
  const send = (type: "mouseMoved" | "mousePressed" | "mouseReleased", [x, y]: Point, button: "none" | Button, buttons: number) =>
    session.send("Input.dispatchMouseEvent", { type, x, y, button, buttons, clickCount: type === "mouseMoved" ? 0 : 1 });
  return {
    move: (to, buttons = 0) => send("mouseMoved", to, "none", buttons),
    press: (at, button = "left", buttons = 1) => send("mousePressed", at, button, buttons),
    release: (at, button = "left", buttons = 0) => send("mouseReleased", at, button, buttons),
  };
}

export const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
