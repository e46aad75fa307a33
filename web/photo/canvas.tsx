import { useLayoutEffect, useRef } from 'react';
import type { Size } from './view.ts';

/** Draws one frame; `ratio` is device px per CSS px. */
export type Draw = (context: CanvasRenderingContext2D, ratio: number) => void;

/** At most this many device px per CSS px are drawn: more cost time and nobody sees them on a photo. */
const MOST_RATIO = 2;

/** A canvas that fills its frame and is drawn once for each change, in the next animation frame at the latest. */
export const Canvas = ({
  size,
  draw,
  className,
}: {
  size: Size;
  draw: Draw;
  className?: string | undefined;
}) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const node = canvas.current;
    if (!node || size.width === 0) return;
    const ratio = Math.min(MOST_RATIO, window.devicePixelRatio || 1);
    const width = Math.round(size.width * ratio);
    const height = Math.round(size.height * ratio);
    const frame = requestAnimationFrame(() => {
      if (node.width !== width || node.height !== height) {
        node.width = width;
        node.height = height;
      }
      const context = node.getContext('2d');
      if (context) draw(context, ratio);
    });
    return () => cancelAnimationFrame(frame);
  }, [size, draw]);
  return <canvas ref={canvas} className={className} />;
};
