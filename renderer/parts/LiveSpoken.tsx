import { useEffect, useRef } from 'react';
import { asWritten } from '../format.ts';
import type { Ticking } from './LiveText.tsx';

/** Oftener than this a screen reader would only stumble over itself. */
export const SPOKEN_EVERY_MS = 2000;

export type LiveSpokenProps<T> = Readonly<{ source: Ticking<T>; words: (value: T) => string }>;

/** The live level for whoever listens: politely, at most every two seconds, and only when it says something new. */
export function LiveSpoken<T>({ source, words }: LiveSpokenProps<T>) {
  const place = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    const speak = () => {
      const at = place.current;
      const text = asWritten(words(source.read()));
      if (at !== null && at.textContent !== text) at.textContent = text;
    };
    const timer = setInterval(speak, SPOKEN_EVERY_MS);
    return () => clearInterval(timer);
  }, [source, words]);
  return <p ref={place} className="unseen" role="status" aria-live="polite" />;
}
