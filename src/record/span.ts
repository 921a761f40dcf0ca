// Things that last: given as they begin, and given again with their ending.

/** Notes the beginning of what `open` does not hold yet. */
export function begin<K, T>(list: T[], open: Map<K, T>, key: K, item: T): void {
  if (open.has(key)) return;
  open.set(key, item);
  list.push(item);
}

/** Adds the ending to what was begun: in its place while it still waits in the list, as a new entry once it was given away. */
export function end<K, T extends object>(list: T[], open: Map<K, T>, key: K, ending: Partial<T>): void {
  const item = open.get(key);
  if (!item) return;
  open.delete(key);
  if (list.includes(item)) Object.assign(item, ending);
  else list.push({ ...item, ...ending });
}
