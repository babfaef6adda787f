import { type RefObject, useLayoutEffect, useState } from 'react';

export type Size = Readonly<{ width: number; height: number }>;

/** The box that the page gives an element, in whole CSS pixels; null until it is known. */
export function useSize(element: RefObject<HTMLElement | null>): Size | null {
  const [size, setSize] = useState<Size | null>(null);
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
  return size;
}
