import { useRef, useState } from 'react';
import { type ImagePoint, imagePoint } from '../../server/units/points.ts';

/** Photo px an arrow moves a pin: alone, with Shift, with Alt. */
const STEP = { plain: 1, shift: 10, alt: 0.1 } as const;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Where an arrow key moves `at`, or null for another key. */
export const nudged = (
  at: ImagePoint,
  event: { key: string; shiftKey: boolean; altKey: boolean },
): ImagePoint | null => {
  const arrow = ARROWS[event.key];
  if (!arrow) return null;
  const step = event.altKey ? STEP.alt : event.shiftKey ? STEP.shift : STEP.plain;
  // Tenths of a px add up exactly only when they are rounded again.
  const moved = (value: number, by: number) => Math.round((value + by * step) * 1000) / 1000;
  return imagePoint(moved(at.x, arrow[0]), moved(at.y, arrow[1]));
};

type Dragged = {
  readonly at: ImagePoint;
  /** CSS px per photo px. */
  readonly k: number;
  readonly onMove: (point: ImagePoint) => void;
  readonly onDrop: (point: ImagePoint, moved: boolean) => void;
};

/** The thumb may tremble this much, CSS px, and it is still a tap. */
const TREMBLE = 3;

/**
 * Handlers that drag a point of the photo by a button: the point moves as far as the finger does, so it never jumps under it. `onDrop` is
 * told whether it moved at all.
 */
export const useDrag = ({ at, k, onMove, onDrop }: Dragged) => {
  const grip = useRef<{ x: number; y: number; from: ImagePoint; moved: boolean } | null>(null);
  const [dragging, setDragging] = useState(false);
  const place = (event: React.PointerEvent): ImagePoint => {
    const { x, y, from } = grip.current!;
    return imagePoint(from.x + (event.clientX - x) / k, from.y + (event.clientY - y) / k);
  };
  const handlers = {
    onPointerDown: (event: React.PointerEvent) => {
      if (event.button > 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      grip.current = { x: event.clientX, y: event.clientY, from: at, moved: false };
      setDragging(true);
    },
    onPointerMove: (event: React.PointerEvent) => {
      const held = grip.current;
      if (!held) return;
      if (!held.moved && Math.hypot(event.clientX - held.x, event.clientY - held.y) < TREMBLE) return;
      held.moved = true;
      onMove(place(event));
    },
    onPointerUp: (event: React.PointerEvent) => {
      const held = grip.current;
      if (!held) return;
      onDrop(held.moved ? place(event) : held.from, held.moved);
      grip.current = null;
      setDragging(false);
    },
    onPointerCancel: () => {
      if (grip.current) onDrop(grip.current.from, false);
      grip.current = null;
      setDragging(false);
    },
  };
  return { dragging, handlers };
};
