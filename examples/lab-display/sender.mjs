// One person's chunks on their way to a worker. Messages to a worker queue up without limit, so the sender keeps the limit.

/**
 * At most `most` messages are unanswered at any time. Chunks that come meanwhile wait and then go as one chunk, so that nothing is dropped and a worker
 * that fell behind gets fewer, longer chunks. A chunk is copied as it goes; until then its columns must be left alone.
 *
 * `post(chunk, transfer)` hands a chunk to the worker; call `answered()` for each answer to it.
 */
export function createSender(post, most) {
  let waiting = [];
  let unanswered = 0;
  const next = () => {
    if (waiting.length === 0 || unanswered >= most) return;
    const chunk = joined(waiting);
    waiting = [];
    unanswered++;
    const { t, x, y } = chunk.trace;
    post(chunk, [t.buffer, x.buffer, y.buffer]);
  };
  return {
    send: (chunk) => {
      waiting.push(chunk);
      next();
    },
    answered: () => {
      unanswered--;
      next();
    },
    unanswered: () => unanswered,
    waiting: () => waiting.length,
  };
}

/** Chunks in order as one, with columns of its own. What is given again in a later chunk stands later in the list, which means the same. */
export function joined(chunks) {
  const column = (of) => {
    const pieces = chunks.map(of);
    const whole = new Float64Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
    let at = 0;
    for (const piece of pieces) {
      whole.set(piece, at);
      at += piece.length;
    }
    return whole;
  };
  const list = (of) => chunks.flatMap((chunk) => of(chunk) ?? []);
  return {
    trace: { t: column(({ trace }) => trace.t), x: column(({ trace }) => trace.x), y: column(({ trace }) => trace.y) },
    presses: list(({ presses }) => presses),
    targets: list(({ targets }) => targets),
    trials: list(({ trials }) => trials),
    marks: list(({ marks }) => marks),
    until: chunks[chunks.length - 1].until,
  };
}
