import type { Settings } from '../contract/settings.ts';

/** What a card leaves out or shows. */
export type CardOptions = {
  /** Upright JPEG of the photo; null leaves the photo, and with it the people, out. */
  readonly photo: Uint8Array | null;
  readonly settings: Settings;
  /** Names of the spot and the game, where there are any. */
  readonly spot: string | null;
  readonly game: string | null;
};
