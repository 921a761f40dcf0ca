// Recordings played back to a worker as if their people pointed now, all at once.
import { Worker } from "node:worker_threads";
import { createSender } from "./sender.mjs";

/**
 * Plays recordings, `pace` times as fast as they were, in chunks of `samples`, with at most `most` unanswered messages a person; every message costs the
 * worker `slowness` ms on top. Gives each person's rows and counts, and how late the answers came: ms from when the oldest sample of a message was there.
 */
export async function play(recordings, { most = 2, slowness = 0, pace = 1, samples = 16, onRows = () => {} } = {}) {
  const worker = new Worker(new URL("./worker.mjs", import.meta.url), { workerData: { slowness } });
  const late = [];
  const people = recordings.map((recording, person) => {
    const chunks = chunksOf(recording, samples);
    const handed = [];
    const underWay = [];
    const one = { chunks, rows: [], messages: 0, samples: 0, mostUnanswered: 0, mostWaiting: 0, next: 0, ended: false, underWay };
    const post = (chunk, transfer) => {
      one.messages++;
      underWay.push(handed.splice(0)[0]);
      worker.postMessage({ kind: "chunk", person, chunk }, transfer);
    };
    one.sender = createSender(post, most);
    one.hand = (chunk) => {
      handed.push(performance.now());
      one.sender.send(chunk);
      one.mostUnanswered = Math.max(one.mostUnanswered, one.sender.unanswered());
      one.mostWaiting = Math.max(one.mostWaiting, one.sender.waiting());
    };
    worker.postMessage({ kind: "begin", person, space: recording.space });
    return one;
  });
  const endWhereAllIsAnswered = (one, person) => {
    if (one.ended || one.next < one.chunks.length || one.sender.unanswered() > 0 || one.sender.waiting() > 0) return;
    one.ended = true;
    worker.postMessage({ kind: "end", person });
  };

  let timer;
  try {
    await new Promise((done, fail) => {
      let open = people.length;
      worker.on("error", fail);
      worker.on("message", ({ kind, person, rows, samples: taken, why }) => {
        const one = people[person];
        if (kind === "refused") fail(new Error(`person ${person}: ${why}`));
        if (rows === undefined) return;
        one.rows.push(...rows);
        if (rows.length > 0) onRows(person, rows);
        if (kind === "end") {
          if (--open === 0) done();
          return;
        }
        late.push(performance.now() - one.underWay.shift());
        one.samples += taken;
        one.sender.answered();
        endWhereAllIsAnswered(one, person);
      });
      const begin = performance.now();
      timer = setInterval(() => {
        const now = (pace * (performance.now() - begin)) / 1000;
        for (const [person, one] of people.entries()) {
          while (one.next < one.chunks.length && one.chunks[one.next].until <= now) one.hand(one.chunks[one.next++]);
          endWhereAllIsAnswered(one, person);
        }
      }, 4);
    });
  } finally {
    clearInterval(timer);
    await worker.terminate();
  }
  late.sort((a, b) => a - b);
  const told = people.map(({ rows, chunks, messages, samples: taken, mostUnanswered, mostWaiting }) => {
    return { rows, chunks: chunks.length, messages, samples: taken, mostUnanswered, mostWaiting };
  });
  return { people: told, late: { median: late[late.length >> 1], most: late[late.length - 1] } };
}

/** What a recorder would have given: samples, and everything else with the chunk in which it began. */
function chunksOf({ trace, presses, targets, trials, marks }, samples) {
  const chunks = [];
  let from = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < trace.t.length; i += samples) {
    const end = Math.min(i + samples, trace.t.length);
    const last = end === trace.t.length;
    const until = trace.t[end - 1];
    // a press or a mark may come after the last sample
    const within = (list, time) => list.filter((entry) => entry[time] > from && (last || entry[time] <= until));
    chunks.push({
      trace: { t: trace.t.subarray(i, end), x: trace.x.subarray(i, end), y: trace.y.subarray(i, end) },
      presses: within(presses, "t"),
      targets: within(targets, "tShown"),
      trials: within(trials, "tStart"),
      marks: within(marks, "t"),
      until,
    });
    from = until;
  }
  return chunks;
}
