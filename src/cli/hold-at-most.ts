/** What sessions in work hold together. */
export interface Held {
  readonly open: () => Share;
}

/** What one of them holds. */
export interface Share {
  /** Waits while others hold so much that `bytes` more are too many; alone a session may have any size. */
  readonly take: (bytes: number) => Promise<void>;
  readonly close: () => void;
}

/** Nobody holds anything yet; together they will hold at most so many bytes. */
export function holdAtMost(most: number): Held {
  let held = 0;
  let waiting: (() => void)[] = [];
  const wake = (): void => {
    const those = waiting;
    waiting = [];
    for (const go of those) go();
  };
  const open = (): Share => {
    let own = 0;
    let isOpen = true;
    return {
      take: async (bytes) => {
        while (isOpen && held > own && held + bytes > most) await new Promise<void>((resolve) => waiting.push(resolve));
        // who has let go holds nothing more, even where it was waiting to
        if (!isOpen) return;
        own += bytes;
        held += bytes;
      },
      close: () => {
        isOpen = false;
        held -= own;
        own = 0;
        wake();
      },
    };
  };
  return { open };
}
