// What a recording needs to become part of an evening: a place in time, a name for what was done, and times as coarse as a browser's.

/** `recording` with all its trials in `block`, under the same condition beside their own. */
export function named(recording, block, condition) {
  const trials = recording.trials.map((trial) => ({ ...trial, block, condition: { ...trial.condition, ...condition } }));
  return { ...recording, device: "simulated mouse", trials };
}

/** `recording` begun `by` seconds later. */
export function after(recording, by) {
  return retimed(recording, (t) => t + by);
}

/** Times in whole tenths of a millisecond, tracks in hundredths of a pixel. */
export function rounded(recording) {
  const { targets, ...rest } = retimed(recording, (t) => Math.round(t * 1e4) / 1e4);
  const coarse = (column) => column.map((value) => Math.round(value * 100) / 100);
  return {
    ...rest,
    targets: targets.map((target) =>
      target.at.t === undefined ? target : { ...target, at: { ...target.at, x: coarse(target.at.x), y: coarse(target.at.y) } },
    ),
  };
}

function retimed(recording, move) {
  const { trace, presses, targets, trials, marks, frames } = recording;
  const moved = (thing, ...names) => {
    const times = names.filter((name) => thing[name] !== undefined).map((name) => [name, move(thing[name])]);
    return { ...thing, ...Object.fromEntries(times) };
  };
  return {
    ...recording,
    trace: { ...trace, t: trace.t.map(move) },
    presses: presses.map((press) => moved(press, "t", "tUp")),
    targets: targets.map((target) => ({
      ...moved(target, "tShown", "tGone"),
      at: target.at.t === undefined ? target.at : { ...target.at, t: target.at.t.map(move) },
    })),
    trials: trials.map((trial) => moved(trial, "tStart", "tEnd")),
    marks: marks.map((mark) => moved(mark, "t", "tEnd")),
    ...(frames !== undefined && { frames: frames.map(move) }),
  };
}
