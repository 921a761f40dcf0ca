// Loading an entry does nothing else: it prints nothing, changes no global and no built-in, and leaves nothing running.
import assert from "node:assert/strict";

const watched = [
  globalThis,
  ...[Object, Array, Number, Math, String, Map, Set, Promise, Float64Array].flatMap((one) => [one, one.prototype ?? {}]),
];
const seen = () => [
  watched.map((one) => Reflect.ownKeys(one).map(String)),
  process.eventNames().map((name) => [name, process.listenerCount(name)]),
  process.getActiveResourcesInfo().filter((kind) => !/^(TTYWrap|PipeWrap|FSReq.*)$/.test(kind)),
  { ...process.env },
];
const before = seen();
const entry = await import(process.argv[2]);
assert.deepEqual(seen(), before);
assert.ok(Object.values(entry).every((value) => typeof value === "function"));
