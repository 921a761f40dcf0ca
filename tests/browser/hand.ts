// A hand on a mouse: events put into the browser by its own protocol.
import type { CDPSession } from "playwright-core";

export type Point = readonly [x: number, y: number];

export function hand(session: CDPSession) {
  const send = (type: "mouseMoved" | "mousePressed" | "mouseReleased", [x, y]: Point, button: "none" | "left" | "right", buttons: number) =>
    session.send("Input.dispatchMouseEvent", { type, x, y, button, buttons, clickCount: type === "mouseMoved" ? 0 : 1 });
  return {
    move: (to: Point, buttons = 0) => send("mouseMoved", to, "none", buttons),
    press: (at: Point, button: "left" | "right" = "left", buttons = 1) => send("mousePressed", at, button, buttons),
    release: (at: Point, button: "left" | "right" = "left", buttons = 0) => send("mouseReleased", at, button, buttons),
  };
}
export type Hand = ReturnType<typeof hand>;

export const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
