// What has to be done when the program is stopped before its end. The one thing that it must know of itself.
const actions = new Set<() => string | undefined>();

/** Has something done if the program is stopped, which may give words about it; calling what is given back takes that off again. */
export function atStop(action: () => string | undefined): () => void {
  actions.add(action);
  return () => void actions.delete(action);
}

/** Does what has to be done, and gives the words about it. */
export function stopAll(): string[] {
  const words = [...actions].flatMap((action) => action() ?? []);
  actions.clear();
  return words;
}
