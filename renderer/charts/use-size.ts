import { type RefObject, useLayoutEffect, useState } from 'react';
import { usePrinting } from './use-printing.ts';

export type Size = Readonly<{ width: number; height: number }>;

/** On paper a drawing has a size of its own, in units of 1/96 inch: as wide as A4 and Letter are between their margins. */
const ON_PAPER: Size = { width: 680, height: 380 };

/** The box that the page gives an element, in whole CSS pixels; null until it is known. */
export function useSize(element: RefObject<HTMLElement | null>): Size | null {
  const [size, setSize] = useState<Size | null>(null);
  const printing = usePrinting();
  useLayoutEffect(() => {
    const box = element.current;
    if (box === null) return;
    const measure = () => {
      const width = Math.floor(box.clientWidth);
      const height = Math.floor(box.clientHeight);
      setSize((before) =>
        before !== null && before.width === width && before.height === height ? before : { width, height },
      );
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(box);
    return () => watch.disconnect();
  }, [element]);
  return printing && size !== null ? ON_PAPER : size;
}
