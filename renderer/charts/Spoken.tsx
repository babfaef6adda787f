import { useEffect, useRef } from 'react';

/** Oftener than this a screen reader would only stumble over itself. */
export const SPOKEN_EVERY_MS = 2000;

export type SpokenProps = Readonly<{ words: string }>;

/** What the crosshair stands on, for whoever listens: politely, at once when all was quiet, else two seconds after the last. */
export function Spoken({ words }: SpokenProps) {
  const place = useRef<HTMLParagraphElement>(null);
  const lastAt = useRef(Number.NEGATIVE_INFINITY);
  useEffect(() => {
    const wait = Math.max(0, lastAt.current + SPOKEN_EVERY_MS - performance.now());
    const timer = setTimeout(() => {
      const at = place.current;
      if (at === null || at.textContent === words) return;
      at.textContent = words;
      lastAt.current = performance.now();
    }, wait);
    return () => clearTimeout(timer);
  }, [words]);
  return <p ref={place} className="unseen" role="status" aria-live="polite" />;
}
