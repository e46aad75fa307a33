import type { Edition } from './editions.ts';

/** What a rule says: a stable code, the clause with its edition, and the reason in one sentence. */
export type Ruling<Code extends string> = {
  readonly code: Code;
  readonly rule: string;
  readonly edition: Edition;
  readonly reason: string;
};

/** `text` with a capital first letter: a reason may begin with a ball's colour. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
