import { type RefObject, useLayoutEffect, useState } from 'react';
import type { Size } from './view.ts';

/** Size of an element in whole CSS px, followed as it changes; 0 × 0 before it is laid out. */
export const useSize = (element: RefObject<HTMLElement | null>): Size => {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const node = element.current;
    if (!node) return;
    const measure = () => {
      const { width, height } = node.getBoundingClientRect();
      setSize((before) =>
        before.width === Math.round(width) && before.height === Math.round(height)
          ? before
          : { width: Math.round(width), height: Math.round(height) },
      );
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(node);
    return () => observer.disconnect();
  }, [element]);
  return size;
};
