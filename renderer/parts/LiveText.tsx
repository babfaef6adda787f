import { useEffect, useRef } from 'react';
import { asWritten } from '../format.ts';

/** A value that changes many times a second, and a call when it may have changed. */
export type Ticking<T> = Readonly<{ read(): T; onTick(listener: () => void): () => void }>;

export type LiveTextProps<T> = Readonly<{
  source: Ticking<T>;
  words: (value: T) => string;
  className?: string;
  /** A word of state for the style sheet, written beside the text. */
  state?: (value: T) => string;
}>;

/** Text that is written past React: twenty readings a second cost no rendering. */
export function LiveText<T>({ source, words, className, state }: LiveTextProps<T>) {
  const place = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    let shown: string | null = null;
    let stood: string | null = null;
    const write = () => {
      const at = place.current;
      if (at === null) return;
      const value = source.read();
      const text = asWritten(words(value));
      if (text !== shown) at.textContent = text;
      shown = text;
      const now = state?.(value) ?? null;
      if (now !== null && now !== stood) at.dataset.at = now;
      stood = now;
    };
    write();
    return source.onTick(write);
  }, [source, words, state]);
  return <span ref={place} className={className} />;
}
