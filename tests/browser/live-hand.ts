// A hand on the live page whose every movement is planned: minimum-jerk strokes to known endpoints, presses at known times, and following with a
// known delay. Every event carries the time that it was planned for, so that a busy machine, which sends it late, does not change the movement.
import type { Page } from "playwright-core";
import { type Hand, type Point, pause } from "./hand.js";

/** One planned acquisition; places are those of the field, times ms since 1970. */
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
function look(page: Page): Promise<Seen> {
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
  for (let round = 0; round < rounds; round++) {
    const start = await nextTarget(page, null);
    let at: Point = [start.x, start.y];
    await hand.move(onPage(at));
    await pause(250);
    let go = clock();
    await click(hand, onPage(at), go);
    let before = start;
    for (let k = 0; k < perRound; k++) {
      const target = await nextTarget(page, before);
      const centre: Point = [target.x, target.y];
      const [along, across] = errorOf(planned.length);
      const end = offset(at, centre, along * target.diameter, across * target.diameter);
      const onset = Math.max(go + LATENCY + 8 * (planned.length % 5), clock() + STEP);
      const stop = onset + 150 + 70 * Math.log2(distance(at, centre) / target.diameter + 1);
      await stroke(hand, onPage(at), onPage(end), onset, stop);
      const press = stop + VERIFICATION;
      await click(hand, onPage(end), press);
      const hit = distance(end, centre) <= target.diameter / 2;
      planned.push({ from: at, target: centre, diameter: target.diameter, end, hit, go, onset, stop, press });
      go = press;
      at = end;
      before = target;
    }
    await pause(100);
  }
  return planned;
}

/** This program's clock, ms since 1970. */
function clock(): number {
  return performance.timeOrigin + performance.now();
}

/** Presses at a moment, and lets go a while later. */
async function click(hand: Hand, at: Point, when: number): Promise<void> {
  await until(when);
  await hand.press(at, "left", 1, when);
  setTimeout(() => hand.release(at, "left", 0, when + HELD).catch(() => undefined), HELD);
}

/** A minimum-jerk movement between two moments. */
async function stroke(hand: Hand, from: Point, to: Point, onset: number, stop: number): Promise<void> {
  for (let when = onset; when < stop; when += STEP) {
    await until(when);
    const s = (when - onset) / (stop - onset);
    const share = s ** 3 * (10 - 15 * s + 6 * s * s);
    hand.move([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])], 0, when).catch(() => undefined);
  }
  await until(stop);
  await hand.move(to, 0, stop);
}

async function until(moment: number): Promise<void> {
  const left = moment - clock();
  if (left > 0) await pause(left);
}

/** Starts the moving target and follows it `delay` ms late while it is there. */
export async function followTarget(page: Page, hand: Hand, delay: number): Promise<void> {
  const { next, left, top } = await look(page);
  const zero = await page.evaluate(() => performance.timeOrigin);
  await watchTarget(page);
  const start: Point = [left + next!.x, top + next!.y];
  await hand.move(start);
  await pause(200);
  await click(hand, start, clock());
  let seen: (readonly [t: number, x: number, y: number])[] = [[0, next!.x, next!.y]];
  let isThere = true;
  let when = clock() + STEP;
  while (isThere) {
    const more = await page.evaluate(() => globalThis.watched.splice(0));
    isThere = !more.some(([, x]) => x === null);
    seen = [...seen.slice(-200), ...more.flatMap(([t, x, y]) => (x === null || y === null ? [] : [[t, x, y] as const]))];
    for (const newest = seen[seen.length - 1]![0]; when < clock() && when - zero - delay <= newest; when += STEP) {
      const [x, y] = placeAt(seen, when - zero - delay);
      hand.move([left + x, top + y], 0, when).catch(() => undefined);
    }
    await pause(STEP);
  }
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

function distance([ax, ay]: Point, [bx, by]: Point): number {
  return Math.sqrt((ax - bx) ** 2 + (ay - by) ** 2);
}

/** A place beyond the target by `along`, and to the left of the way by `across`, on a screen whose y points down. */
function offset(from: Point, to: Point, along: number, across: number): Point {
  const length = distance(from, to);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return [to[0] + along * ux + across * uy, to[1] + along * uy - across * ux];
}
