import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { currentSettings } from '../settings/use-settings.ts';
import { coloursOf } from '../words/balls.ts';

/** What was said of the last photo: the next one is likely from the same spot with the same balls. */
type Facts = { readonly balls: readonly BallColour[]; readonly spot: string | null };

const KEPT = 'sward-last-facts';

/** The last facts, or the club's ball set and no spot. */
export const lastFacts = (): Facts => {
  const start: Facts = { balls: coloursOf(currentSettings().ballSet), spot: null };
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? '{}') as Partial<Facts>;
    const balls = kept.balls?.filter((ball) => BALL_COLOURS.includes(ball));
    return { balls: balls?.length ? balls : start.balls, spot: kept.spot ?? null };
  } catch {
    return start;
  }
};

/** Remembers what was said of this photo for the next one. */
export const rememberFacts = (facts: Facts): void => {
  try {
    localStorage.setItem(KEPT, JSON.stringify(facts));
  } catch {
    // Without storage the next photo starts from the club's settings.
  }
};
