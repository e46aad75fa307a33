import { useReducedMotion } from '@mantine/hooks';
import { useEffect, useState } from 'react';

/** How long balls take to travel a turn, ms. */
const TRAVEL = 700;

/** Slow at both ends, as a ball set in motion and coming to rest is drawn. */
const eased = (t: number): number => t * t * (3 - 2 * t);

/**
 * Share of the way that the balls have gone since `moment` was chosen, 0 to 1. Without motion (`moving` false, or as the reader's device asks) it is
 * 1 at once.
 */
export const useTravel = (moment: number, moving: boolean): number => {
  const still = useReducedMotion(false, { getInitialValueInEffect: false });
  const [gone, setGone] = useState({ moment, share: 1 });
  useEffect(() => {
    if (still || !moving) return;
    let frame = 0;
    let start: number | null = null;
    const step = (now: number) => {
      start ??= now;
      const t = Math.min(1, (now - start) / TRAVEL);
      setGone({ moment, share: eased(t) });
      if (t < 1) frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [moment, moving, still]);
  if (still || !moving) return 1;
  return gone.moment === moment ? gone.share : 0;
};
