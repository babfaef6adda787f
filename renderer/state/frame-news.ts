/** Tells whoever listens that something changed, once a frame and not once a change. */
export type FrameNews = Readonly<{
  changed(): void;
  /** @returns  what ends it */
  subscribe(listener: () => void): () => void;
}>;

export function createFrameNews(nextFrame: (callback: () => void) => void): FrameNews {
  const listeners = new Set<() => void>();
  let asked = false;
  return {
    changed() {
      if (asked) return;
      asked = true;
      nextFrame(() => {
        asked = false;
        for (const listener of [...listeners]) listener();
      });
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
