// Drives the built recorder in a real browser: npx tsx tests/browser/recorder.ts [built entry, default dist/record/index.js]
// Ends non-zero when a check fails; where there is no Chromium it says so and ends with 0.
import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { CDPSession, Page } from "playwright-core";
import type { Recorder } from "../../src/record/index.js";
import type { Chunk, Mark, Press, Recording } from "../../src/trace/types.js";
import { check, tellChecks } from "./checks.js";
import { launch, skipWithoutBrowser } from "./chromium.js";
import { type Hand, hand, type Point, pause } from "./hand.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

/** What the browser itself said, noted beside the recorder by listeners of our own. */
interface Seen {
  /** Time, x, y of every coalesced event, and how long after a frame later than itself it came, ms. */
  merged: [number, number, number, number][];
  parents: number;
  largest: number;
}

declare global {
  var rig: {
    createRecorder: (element: Element, options?: object) => Recorder;
    recorder: Recorder;
    chunks: PlainChunk[];
    seen: Seen;
    /** Begins a recording at t = 0 and gives that moment, ms. */
    start: (options?: object) => number;
    keep: (chunk: Chunk) => void;
    /** Ends the recording and gives all its chunks. */
    finish: () => { chunks: PlainChunk[]; seen: Seen };
  };
}

type PlainChunk = ReturnType<typeof plain>;

skipWithoutBrowser();
const entry = resolve(process.argv[2] ?? join(root, "dist", "record", "index.js"));
if (!existsSync(entry)) {
  console.error(`no built entry at ${entry}: build first (npm run build:js)`);
  process.exit(1);
}

// ---------------------------------------------------------------- the page

/** Chunks cross from the page to here as JSON. */
function plain(chunk: Chunk) {
  const { trace, presses, marks, frames, until } = chunk;
  return {
    t: [...trace.t],
    x: [...trace.x],
    y: [...trace.y],
    presses: [...(presses ?? [])] as Press[],
    marks: [...(marks ?? [])] as Mark[],
    frames: [...(frames ?? [])],
    until: until ?? Number.NaN,
  };
}

const PAGE_SCRIPT = `
import { createRecorder } from ${JSON.stringify(entry)};
${plain.toString()}
// the runner of this script wraps functions in a call of this name, also those it sends here
globalThis.__name = (wrapped) => wrapped;
let frame = 0;
const onFrame = (time) => { frame = time; requestAnimationFrame(onFrame); };
onFrame(0);
const field = document.querySelector("#field");
window.addEventListener("pointermove", (event) => {
  const { seen } = rig;
  const merged = event.getCoalescedEvents();
  seen.parents++;
  seen.largest = Math.max(seen.largest, merged.length);
  for (const part of merged) seen.merged.push([part.timeStamp, part.clientX, part.clientY, frame - part.timeStamp]);
});
globalThis.rig = {
  createRecorder,
  chunks: [],
  keep: (chunk) => rig.chunks.push(plain(chunk)),
  start(options) {
    rig.chunks = [];
    rig.seen = { merged: [], parents: 0, largest: 0 };
    const begin = performance.now();
    rig.recorder = createRecorder(field, { origin: begin, ...options });
    rig.told = options?.onChunk !== undefined;
    return begin;
  },
  finish() {
    const last = rig.recorder.stop();
    if (!rig.told) rig.keep(last);
    return { chunks: rig.chunks, seen: rig.seen };
  },
  seen: { merged: [], parents: 0, largest: 0 },
};
`;

// a fractional corner, a scrolled page and a child, so that a wrong frame of reference shows
const HTML = `<!doctype html><style>
body { margin: 0; height: 3000px } #field { position: absolute; left: 100.5px; top: 250.25px; width: 600px; height: 400px; border: 3px solid }
#child { position: absolute; left: 40px; top: 40px; width: 60px; height: 40px }
</style><div id="field"><button id="child">press</button></div><button id="end" style="position:fixed;left:0;top:0">end</button><p id="said"></p>
<script src="/page.js"></script>`;
const SCROLL = 200;
const LEFT = 100.5;
const TOP = 250.25 - SCROLL;

async function bundle(contents: string): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: root, loader: "ts" },
    bundle: true,
    format: "iife",
    write: false,
    alias: { "aimed-movement/record": entry },
  });
  return outputFiles[0]!.text;
}

// ---------------------------------------------------------------- the hand

/** Distinct positions, so that each can be told from every other: a slow spiral inside the field. */
function spiral(count: number): Point[] {
  return Array.from({ length: count }, (_, i) => [400 + (40 + 0.3 * i) * Math.cos(0.05 * i), 250 + (40 + 0.25 * i) * Math.sin(0.05 * i)]);
}

// ---------------------------------------------------------------- what every recording must hold

function joined(chunks: PlainChunk[]) {
  return {
    t: chunks.flatMap((chunk) => chunk.t),
    x: chunks.flatMap((chunk) => chunk.x),
    y: chunks.flatMap((chunk) => chunk.y),
    presses: chunks.flatMap((chunk) => chunk.presses),
    marks: chunks.flatMap((chunk) => chunk.marks),
    frames: chunks.flatMap((chunk) => chunk.frames),
  };
}

function checkChunks(where: string, chunks: PlainChunk[]): void {
  const { t, frames } = joined(chunks);
  check(
    `${where}: samples are in time order`,
    t.every((time, i) => i === 0 || time >= t[i - 1]!),
  );
  check(
    `${where}: frames increase (${frames.length})`,
    frames.every((time, i) => i === 0 || time > frames[i - 1]!),
  );
  let early = 0;
  let until = 0;
  const begun = new Set<string>();
  for (const chunk of chunks) {
    const news = [...chunk.presses.map((press) => `${press.t} ${press.code}`), ...chunk.marks.map((mark) => `${mark.t} ${mark.kind}`)];
    const times = [...chunk.t, ...chunk.frames];
    for (const [i, item] of [...chunk.presses, ...chunk.marks].entries()) if (!begun.has(news[i]!)) times.push(item.t);
    for (const item of news) begun.add(item);
    early += times.filter((time) => time < until).length;
    if (chunk.until < until) early++;
    until = chunk.until;
  }
  check(`${where}: nothing is earlier than an until given before it`, early === 0, early);
}

/** The recorded positions must be those of the script, each once, in its order, as the browser rounds them: to single precision. */
function checkPositions(where: string, chunks: PlainChunk[], script: readonly Point[]): void {
  const { x, y } = joined(chunks);
  const wrong = script.filter(([sx, sy], i) => x[i] !== Math.fround(sx) - LEFT || y[i] !== Math.fround(sy) - TOP).length;
  check(`${where}: ${script.length} scripted positions give as many samples`, x.length === script.length, x.length);
  check(`${where}: each equals its scripted position to single precision`, wrong === 0, { wrong, x: x.slice(0, 3), y: y.slice(0, 3) });
}

// ---------------------------------------------------------------- the checks

async function merging(page: Page, { move }: Hand): Promise<void> {
  const script = spiral(600);
  await move([300, 300]);
  await pause(100);
  const begin = await page.evaluate(() => globalThis.rig.start({ onChunk: globalThis.rig.keep, every: 0.03 }));
  // unawaited: several arrive within one frame, and the browser merges them
  await Promise.all(script.map((point) => move(point)));
  await pause(200);
  const { chunks, seen } = await page.evaluate(() => globalThis.rig.finish());
  checkChunks("merging", chunks);
  checkPositions("merging", chunks, script);
  check(`merging: the browser did merge (${seen.parents} events, up to ${seen.largest} in one)`, seen.largest > 1 && seen.parents < 600);
  const { t } = joined(chunks);
  const off = Math.max(...seen.merged.map(([time], i) => Math.abs(1000 * t[i]! + begin - time)));
  check("merging: times are those of the merged events, to 1e-6 ms", seen.merged.length === t.length && off < 1e-6, off);
  check(
    `merging: several chunks (${chunks.length}), the first before the hand was done`,
    chunks.length > 3 && chunks[0]!.t.length < script.length,
  );
}

async function holding(page: Page, { move }: Hand): Promise<void> {
  await page.evaluate(() => globalThis.rig.start());
  await move([350, 300]);
  await pause(150);
  const { chunks } = await page.evaluate(async () => {
    const { recorder, keep, finish } = globalThis.rig;
    keep(recorder.take());
    await new Promise((done) => setTimeout(done, 300));
    keep(recorder.take());
    return finish();
  });
  const [first, second] = chunks;
  check("holding: no sample comes, and until moves on all the same", second!.t.length === 0 && second!.until > first!.until + 0.2, [
    first!.until,
    second!.until,
  ]);
}

async function blocking(page: Page, { move }: Hand): Promise<void> {
  const script = spiral(400);
  await page.evaluate(() => globalThis.rig.start());
  // the page is busy while the hand moves; a chunk is taken at the end of each busy stretch, before the waiting events are handed over
  const busy = page.evaluate(async () => {
    for (let i = 0; i < 6; i++) {
      const end = performance.now() + 150;
      while (performance.now() < end);
      globalThis.rig.keep(globalThis.rig.recorder.take());
      await new Promise((done) => setTimeout(done, 20));
    }
  });
  const moves: Promise<unknown>[] = [];
  for (const point of script) {
    moves.push(move(point));
    await pause(1);
  }
  await Promise.all([busy, ...moves]);
  await pause(300);
  const { chunks, seen } = await page.evaluate(() => globalThis.rig.finish());
  checkChunks("blocking", chunks);
  checkPositions("blocking", chunks, script);
  const late = Math.max(...seen.merged.map((part) => part[3]));
  check(`blocking: longest delay behind a later frame ${late.toFixed(2)} ms, below the 50 ms allowed`, late < 50, late);
}

async function pressing(page: Page, { move, press, release }: Hand): Promise<void> {
  const a: Point = [310.7, 330.3];
  const b: Point = [322.1, 331.9];
  await move(a);
  await pause(60);
  await page.evaluate(() => globalThis.rig.start());
  await press(a);
  await press(a, "right", 3);
  await page.evaluate(() => globalThis.rig.keep(globalThis.rig.recorder.take()));
  await move(b, 3);
  await release(b, "left", 2);
  await release(b, "right", 0);
  await press(b);
  await release(b);
  const [down, up] = (await page.evaluate(() => globalThis.rig.finish())).chunks;
  checkChunks("pressing", [down!, up!]);
  checkPositions("pressing", [down!, up!], [a, a, b, b, b, b, b]);
  check(
    "pressing: the second button counts though it comes as a move",
    down!.presses.map((p) => p.code).join() === "0,2" && down!.presses.every((p) => p.tUp === undefined && p.by === "button"),
    down!.presses,
  );
  check(
    "pressing: releases name the presses of the chunk before, and a whole press comes once",
    up!.presses.map((p) => p.code).join() === "0,2,0" &&
      up!.presses.every((p) => p.tUp! > p.t) &&
      up!.presses.slice(0, 2).every((p, i) => p.t === down!.presses[i]!.t),
    up!.presses,
  );
  check(
    "pressing: presses carry their position",
    down!.presses.every((p) => p.x === Math.fround(a[0]) - LEFT && p.y === Math.fround(a[1]) - TOP),
    down!.presses,
  );
}

async function leaving(page: Page, { move, press, release }: Hand): Promise<void> {
  await move([650, 330]);
  await pause(60);
  await page.evaluate(() => globalThis.rig.start());
  const out: Point[] = [
    [720, 330],
    [760, 331],
  ];
  await press([650, 330]);
  for (const point of out) await move(point, 1);
  await release(out[1]!);
  await move([780, 340]);
  await move([782, 340]);
  await move([500, 340]);
  await pause(60);
  const chunk = (await page.evaluate(() => globalThis.rig.finish())).chunks[0]!;
  checkPositions("leaving", [chunk], [[650, 330], ...out, out[1]!, [500, 340]]);
  check(
    "leaving: a press is followed off the field to its release",
    chunk.presses.length === 1 && chunk.presses[0]!.tUp === chunk.t[3],
    chunk,
  );
  const [gap] = chunk.marks;
  check(
    "leaving: one gap, from leaving to the next sample",
    chunk.marks.length === 1 && gap!.kind === "gap" && gap!.t > chunk.t[3]! && gap!.tEnd === chunk.t[4],
    chunk.marks,
  );
  // the page's own clicks must be what they were without a recorder
  await page.evaluate(() => {
    globalThis.rig.start();
    document.querySelector("#child")!.addEventListener("click", () => {
      document.title = "clicked";
    });
    document.querySelector("#child")!.addEventListener("pointerdown", (event) => event.stopPropagation());
  });
  await press([160, 110]);
  await release([160, 110]);
  await pause(60);
  const onChild = (await page.evaluate(() => globalThis.rig.finish())).chunks[0]!;
  check("leaving: a press on a child that keeps it to itself is recorded", onChild.presses.length === 1, onChild.presses);
  check("leaving: the click stays the child's", (await page.title()) === "clicked");
}

async function locking(page: Page, { move, press, release }: Hand): Promise<void> {
  await move([300, 330]);
  await pause(60);
  await page.evaluate(() => {
    const field = document.querySelector("#field") as HTMLElement;
    field.addEventListener("click", () => field.requestPointerLock(), { once: true });
    globalThis.rig.start({ degPerCount: 0.02 });
  });
  await move([310, 340]);
  await press([310, 340]);
  await release([310, 340]);
  await page.waitForFunction(() => document.pointerLockElement !== null);
  await pause(60);
  // the first event under the lock tells where the pointer is, without motion
  const path = Array.from({ length: 41 }, (_, i): Point => [310 + 2 * i, 340 - i]);
  await Promise.all(path.map((point) => move(point)));
  await press(path[40]!);
  await release(path[40]!);
  await pause(60);
  await page.evaluate(() => document.exitPointerLock());
  await pause(60);
  await move([500, 300]);
  await pause(60);
  const chunk = (await page.evaluate(() => globalThis.rig.finish())).chunks[0]!;
  const space = await page.evaluate(() => globalThis.rig.recorder.space);
  checkChunks("locking", [chunk]);
  check("locking: the space is the view in degrees", space.kind === "view" && space.unit === "deg", space);
  const apart = Math.max(...path.map((_, i) => Math.abs(chunk.x[i]! - 0.02 * 2 * i) + Math.abs(chunk.y[i]! + 0.02 * i)));
  check("locking: motion is summed, each merged event once", chunk.x.length === 43 && apart < 1e-9, { apart, n: chunk.x.length });
  check("locking: the press that asked for the lock is left out, the one under it is in", chunk.presses.length === 1, chunk.presses);
  const [before, after] = chunk.marks;
  check(
    "locking: hidden before the lock and after it",
    chunk.marks.length === 2 && before!.t < 0.01 && before!.tEnd! <= chunk.t[0]! && after!.t >= chunk.t[42]! && after!.tEnd === chunk.until,
    chunk.marks,
  );
}

async function stopping(page: Page, session: CDPSession, { move, press }: Hand): Promise<void> {
  const listeners = async (): Promise<number> => {
    let count = 0;
    for (const expression of ["window", "document", "document.querySelector('#field')"]) {
      const { result } = await session.send("Runtime.evaluate", { expression });
      count += (await session.send("DOMDebugger.getEventListeners", { objectId: result.objectId! })).listeners.length;
    }
    return count;
  };
  const before = await listeners();
  await page.evaluate(() => globalThis.rig.start({ onChunk: globalThis.rig.keep }));
  const during = await listeners();
  await page.evaluate(() => globalThis.rig.recorder.stop());
  check(`stopping: of ${during - before} listeners none is left`, during > before && (await listeners()) === before);
  const told = await page.evaluate(() => globalThis.rig.chunks.length);
  await move([333, 333]);
  await press([333, 333]);
  await pause(200);
  const count = await page.evaluate(() => globalThis.rig.chunks.length);
  const rest = await page.evaluate(() => {
    const { recorder, chunks, keep } = globalThis.rig;
    keep(recorder.take());
    return chunks[chunks.length - 1]!;
  });
  check("stopping: nobody is told any more", count === told);
  check("stopping: nothing is recorded any more", rest.t.length + rest.frames.length + rest.presses.length === 0, rest);
}

async function rawUpdates(page: Page, { move, release }: Hand): Promise<void> {
  await release([333, 333]);
  await page.evaluate(() => {
    globalThis.rig.start();
    const raw: number[] = [];
    Object.assign(globalThis, { raw });
    window.addEventListener("pointerrawupdate", (event) => {
      for (const part of (event as PointerEvent).getCoalescedEvents()) raw.push(part.timeStamp);
    });
  });
  await Promise.all(spiral(300).map((point) => move(point)));
  await pause(200);
  const { seen } = await page.evaluate(() => globalThis.rig.finish());
  const merged = seen.merged.map(([time]) => time);
  const raw = await page.evaluate(() => (globalThis as unknown as { raw: number[] }).raw);
  // why the recorder does without them: they would bring nothing that is not in the merged lists
  check(`raw updates: ${raw.length} samples, the same as merged into moves`, raw.join() === merged.join(), [raw.length, merged.length]);
}

/** A page that is really hidden, by another one in front. Done over the bare protocol: the driver keeps its own pages visible always. */
async function hiding(browser: Awaited<ReturnType<typeof launch>>, url: string): Promise<void> {
  const session = await browser.newBrowserCDPSession();
  const { browserContextId } = await session.send("Target.createBrowserContext");
  const { targetId } = await session.send("Target.createTarget", { url, browserContextId });
  const { sessionId } = await session.send("Target.attachToTarget", { targetId });
  const waiting = new Map<number, (answer: { result: { result: { value: PlainChunk[] } } }) => void>();
  session.on("Target.receivedMessageFromTarget", ({ message }) => {
    const answer = JSON.parse(message);
    waiting.get(answer.id)?.(answer);
  });
  const evaluate = async (expression: string): Promise<PlainChunk[]> => {
    const answer = new Promise<{ result: { result: { value: PlainChunk[] } } }>((done) => waiting.set(waiting.size + 1, done));
    const message = JSON.stringify({ id: waiting.size, method: "Runtime.evaluate", params: { expression, returnByValue: true } });
    await session.send("Target.sendMessageToTarget", { sessionId, message });
    return (await answer).result.result.value;
  };
  await pause(500);
  await evaluate("rig.start({ onChunk: rig.keep, every: 1e6 }), []");
  await pause(200);
  const front = await session.send("Target.createTarget", { url: "about:blank", browserContextId });
  let whenHidden: PlainChunk[] = [];
  for (let i = 0; i < 50 && whenHidden.length === 0; i++) {
    await pause(100);
    whenHidden = await evaluate("rig.chunks");
  }
  await pause(300);
  await session.send("Target.activateTarget", { targetId });
  await pause(300);
  const chunks = await evaluate("rig.finish().chunks");
  await session.send("Target.closeTarget", { targetId: front.targetId });
  checkChunks("hiding", chunks);
  const marks = joined(chunks).marks;
  check(
    "hiding: a chunk is given as the page goes out of sight, with the mark begun",
    whenHidden.length === 1 && whenHidden[0]!.marks[0]?.kind === "hidden" && whenHidden[0]!.marks[0].tEnd === undefined,
    whenHidden,
  );
  const last = marks[1];
  check(
    `hiding: the mark is given again with its end (${last && (last.tEnd! - last.t).toFixed(3)} s)`,
    marks.length === 2 && last!.t === marks[0]!.t && last!.tEnd! - last!.t > 0.3,
    marks,
  );
}

/** The examples of the guide, as they stand there. */
async function guide(page: Page, { move, press, release }: Hand): Promise<void> {
  const text = readFileSync(join(root, "docs", "recording.md"), "utf8");
  const blocks = [...text.matchAll(/```ts[^\n]*\n([\s\S]*?)```/g)].map((match) => match[1]!);
  const joining = blocks.find((block) => block.includes("function joinChunks"))!;
  const script = spiral(50);
  await move(script[0]!);
  await pause(60);
  await page.addScriptTag({
    content: await bundle(
      `${joining}\n${blocks[0]}\nObject.assign(globalThis, { joined: () => joinChunks(chunks, recorder.space, "mouse") });`,
    ),
  });
  for (const point of script) await move(point);
  await press(script[49]!);
  // the release falls into a later chunk
  await pause(300);
  await release(script[49]!);
  await press([5, 5]);
  await release([5, 5]);
  const said = await page.textContent("#said");
  check(`guide: the first example says "${said}"`, /^52 samples since \d{4}-/.test(said ?? ""), said);
  const recording = await page.evaluate(() => {
    const { trace, presses, marks } = (globalThis as unknown as { joined: () => Recording }).joined();
    return { n: trace.t.length, presses, marks };
  });
  check("guide: joined chunks have each sample and each press once", recording.n === 52 && recording.presses.length === 1, recording);
  check("guide: the press has its release", (recording.presses[0]?.tUp ?? 0) > (recording.presses[0]?.t ?? 0) + 0.25, recording.presses);
}

/** What the clock of events is coarsened to: the largest of a few steps of which all their times are multiples, ms. */
async function clockStep(page: Page, { move }: Hand): Promise<number | undefined> {
  await page.evaluate(() => globalThis.rig.start());
  for (const point of spiral(100)) await move(point);
  const { seen } = await page.evaluate(() => globalThis.rig.finish());
  const isMultiple = (time: number, step: number) => Math.abs(time / step - Math.round(time / step)) * step < 1e-5;
  return [1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005].find((step) => seen.merged.every(([time]) => isMultiple(time, step)));
}

// ---------------------------------------------------------------- run

const script = await bundle(PAGE_SCRIPT);
const server = createServer((request, response) => {
  const isolated = request.url?.startsWith("/shared")
    ? {}
    : { "cross-origin-opener-policy": "same-origin", "cross-origin-embedder-policy": "require-corp" };
  const [type, body] = request.url === "/page.js" ? ["text/javascript", script] : ["text/html", HTML];
  response.writeHead(200, { "content-type": type, ...isolated }).end(body);
});
await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
const browser = await launch();
try {
  const open = async (address: string) => {
    const page = await browser.newPage({ viewport: { width: 900, height: 700 } });
    page.on("pageerror", (error) => check("no error in the page", false, error.message));
    await page.goto(address);
    await page.evaluate((top) => scrollTo(0, top), SCROLL);
    const session = await page.context().newCDPSession(page);
    return { page, session, hand: hand(session) };
  };
  const { page, session, hand: mouse } = await open(url);
  console.log(`Chromium ${browser.version()}`);
  check("the page is isolated from other origins", await page.evaluate(() => crossOriginIsolated));
  await merging(page, mouse);
  await holding(page, mouse);
  await blocking(page, mouse);
  await pressing(page, mouse);
  await leaving(page, mouse);
  await locking(page, mouse);
  await stopping(page, session, mouse);
  await rawUpdates(page, mouse);
  await hiding(browser, url);
  await guide(page, mouse);
  const fine = await clockStep(page, mouse);
  const other = await open(`${url}shared`);
  const coarse = await clockStep(other.page, other.hand);
  console.log(`times come in steps of ${fine} ms on the isolated page, ${coarse} ms on one that is not`);
} finally {
  await browser.close();
  server.close();
}
process.exit(tellChecks());
