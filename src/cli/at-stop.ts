// What has to be done when the program is stopped before its end. The one thing that it must know of itself.
const actions = new Set<() => void>();

/** Has something done if the program is stopped; calling what is given back takes that off again. */
export function atStop(action: () => void): () => void {
  actions.add(action);
  return () => void actions.delete(action);
}

/** Does what has to be done. */
export function stopAll(): void {
  for (const action of actions) action();
  actions.clear();
}
