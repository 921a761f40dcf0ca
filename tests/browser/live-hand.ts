// A hand on the live page whose every movement is planned: minimum-jerk strokes to known endpoints, presses at known times, and following with a
// known delay. What it plans it does by the clock, so that a late event lies where the plan says that the hand was by then.
import type { Page } from "playwright-core";
import { type Hand, type Point, pause } from "./hand.js";

/** One planned acquisition; places are those of the field, times of this program's clock, ms. */
export interface Planned {
  readonly from: Point;
  readonly target: Point;
  readonly diameter: number;
  readonly end: Point;
  readonly hit: boolean;
  readonly go: number;
  readonly onset: number;
  readonly stop: number;
  readonly press: number;
}

/** Error of an endpoint in target widths, along the way and across it. */
export type ErrorOf = (movement: number) => Point;

const LATENCY = 180;
const VERIFICATION = 90;
const HELD = 60;
/** Between two events of the device, ms. */
const STEP = 4;

interface Seen {
  readonly left: number;
  readonly top: number;
  readonly next: { readonly x: number; readonly y: number; readonly diameter: number } | null;
}

/** Where the field is and which target is filled. */
export function look(page: Page): Promise<Seen> {
  return page.evaluate(() => {
    const box = document.querySelector(".live-field")!.getBoundingClientRect();
    const circle = document.querySelector(".live-field .live-next");
    const value = (name: string) => Number(circle!.getAttribute(name));
    const next = circle && { x: value("cx"), y: value("cy"), diameter: 2 * value("r") };
    return { left: box.left, top: box.top, next };
  });
}

/** The filled target, once it is another than the one before. */
async function nextTarget(page: Page, before: Seen["next"]): Promise<NonNullable<Seen["next"]>> {
  for (let tries = 0; tries < 400; tries++) {
    const { next } = await look(page);
    if (next !== null && (next.x !== before?.x || next.y !== before.y || next.diameter !== before.diameter)) return next;
    await pause(5);
  }
  throw new Error("no other target was filled within two seconds");
}

/** Runs rounds of tapping: the press that begins each, and then every target. */
export async function tapRounds(page: Page, hand: Hand, rounds: number, perRound: number, errorOf: ErrorOf): Promise<Planned[]> {
  const { left, top } = await look(page);
  const onPage = ([x, y]: Point): Point => [left + x, top + y];
  const planned: Planned[] = [];
  let before: Seen["next"] = null;
  for (let round = 0; round < rounds; round++) {
    const start = await nextTarget(page, before);
    let at: Point = [start.x, start.y];
    await hand.move(onPage(at));
    await pause(250);
    let pressed = await click(hand, onPage(at));
    before = start;
    for (let k = 0; k < perRound; k++) {
      const target = await nextTarget(page, before);
      const centre: Point = [target.x, target.y];
      const [along, across] = errorOf(planned.length);
      const end = offset(at, centre, along * target.diameter, across * target.diameter);
      const onset = pressed + LATENCY + 8 * (planned.length % 5);
      const stop = onset + 150 + 70 * Math.log2(distance(at, centre) / target.diameter + 1);
      await stroke(hand, onPage(at), onPage(end), onset, stop);
      await until(stop + VERIFICATION);
      const go = pressed;
      pressed = await click(hand, onPage(end));
      const hit = distance(end, centre) <= target.diameter / 2;
      planned.push({ from: at, target: centre, diameter: target.diameter, end, hit, go, onset, stop, press: pressed });
      at = end;
      before = target;
    }
    // the first target of the next round stands at the top again
    before = null;
    await pause(100);
  }
  return planned;
}

/** Presses where the hand is, and tells when. */
async function click(hand: Hand, at: Point): Promise<number> {
  const when = performance.now();
  await hand.press(at);
  setTimeout(() => hand.release(at).catch(() => undefined), HELD);
  return when;
}

/** A minimum-jerk movement between two moments. */
async function stroke(hand: Hand, from: Point, to: Point, onset: number, stop: number): Promise<void> {
  await until(onset);
  for (let now = performance.now(); now < stop; now = performance.now()) {
    const s = Math.min(1, Math.max(0, (now - onset) / (stop - onset)));
    const share = s ** 3 * (10 - 15 * s + 6 * s * s);
    hand.move([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]).catch(() => undefined);
    await until(Math.min(stop, now + STEP));
  }
  await hand.move(to);
}

/** Waits for a moment closely: the system's timers alone are a millisecond coarse, and late. */
async function until(moment: number): Promise<void> {
  const left = moment - performance.now();
  if (left > 2) await pause(left - 1);
  while (performance.now() < moment) await new Promise<void>((done) => setImmediate(done));
}

/** Starts the moving target and follows it `delay` ms late while it is there. */
export async function followTarget(page: Page, hand: Hand, delay: number): Promise<void> {
  const { next, left, top } = await look(page);
  const offset = await clockOffset(page);
  await watchTarget(page);
  const start: Point = [left + next!.x, top + next!.y];
  await hand.move(start);
  await pause(200);
  await hand.press(start);
  setTimeout(() => hand.release(start).catch(() => undefined), HELD);
  let seen: (readonly [t: number, x: number, y: number])[] = [[0, next!.x, next!.y]];
  let isThere = true;
  const polling = (async () => {
    while (isThere) {
      const more = await page.evaluate(() => globalThis.watched.splice(0));
      isThere = !more.some(([, x]) => x === null);
      seen = [...seen.slice(-200), ...more.flatMap(([t, x, y]) => (x === null || y === null ? [] : [[t, x, y] as const]))];
      await pause(10);
    }
  })();
  while (isThere) {
    const [x, y] = placeAt(seen, performance.now() + offset - delay);
    hand.move([left + x, top + y]).catch(() => undefined);
    await until(performance.now() + STEP);
  }
  await polling;
}

declare global {
  /** Frame time (ms) and place of the filled circle; no place once it is gone. */
  var watched: [t: number, x: number | null, y: number | null][];
}

/** Notes where the filled circle is in every frame, after all that the page does in that frame. */
async function watchTarget(page: Page): Promise<void> {
  await page.evaluate(() => {
    globalThis.watched = [];
    const watch = (t: number) => {
      setTimeout(() => {
        const circle = document.querySelector(".live-field .live-next");
        globalThis.watched.push(circle ? [t, Number(circle.getAttribute("cx")), Number(circle.getAttribute("cy"))] : [t, null, null]);
        if (circle) requestAnimationFrame(watch);
      });
    };
    requestAnimationFrame(watch);
  });
}

function placeAt(seen: readonly (readonly [number, number, number])[], t: number): Point {
  let after = seen.length - 1;
  while (after > 0 && seen[after - 1]![0] > t) after--;
  const [t1, x1, y1] = seen[after]!;
  const [t0, x0, y0] = seen[Math.max(0, after - 1)]!;
  const share = t1 > t0 ? Math.min(1, Math.max(0, (t - t0) / (t1 - t0))) : 1;
  return [x0 + share * (x1 - x0), y0 + share * (y1 - y0)];
}

/** What must be added to this program's clock to have the page's, ms: from the quickest of many questions. */
export async function clockOffset(page: Page): Promise<number> {
  let best = { round: Number.POSITIVE_INFINITY, offset: 0 };
  for (let i = 0; i < 40; i++) {
    const asked = performance.now();
    const there = await page.evaluate(() => performance.now());
    const round = performance.now() - asked;
    if (round < best.round) best = { round, offset: there - asked - round / 2 };
  }
  return best.offset;
}

function distance([ax, ay]: Point, [bx, by]: Point): number {
  return Math.sqrt((ax - bx) ** 2 + (ay - by) ** 2);
}

/** A place beyond the target by `along`, and to the left of the way by `across`, on a screen whose y points down. */
function offset(from: Point, to: Point, along: number, across: number): Point {
  const length = distance(from, to);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return [to[0] + along * ux + across * uy, to[1] + along * uy - across * ux];
}
