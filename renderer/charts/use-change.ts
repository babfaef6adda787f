import { useEffect, useState } from 'react';
import { eased } from './change.ts';

/** Long enough to follow, short enough to see twice. */
export const CHANGE_MS = 1500;

export const wantsStill = (): boolean =>
  typeof window.matchMedia === 'function' && window.matchMedia('(prefers-reduced-motion: reduce)').matches;

/**
 * The way from before to after, 0 to 1; null when nothing moves. It runs once for each new key, and where the system asks for
 * less motion it stands on before and then on after, with nothing in between.
 */
export function useChange(key: string | null): number | null {
  const [share, setShare] = useState<number | null>(null);
  useEffect(() => {
    if (key === null) {
      setShare(null);
      return;
    }
    const still = wantsStill();
    let frame = 0;
    let began: number | null = null;
    const step = (now: number) => {
      began ??= now;
      const done = (now - began) / CHANGE_MS;
      setShare(done >= 1 ? null : still ? 0 : eased(done));
      if (done < 1) frame = requestAnimationFrame(step);
    };
    setShare(0);
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [key]);
  return share;
}
