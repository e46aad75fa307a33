import type { ArrivedBy } from '../../server/contract/judge.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { opponentsOf } from '../words/balls.ts';

/** How a ball may have come to where it lies, as people say it. */
export const ARRIVALS = [
  'thisStroke',
  'theirStroke',
  'touched',
  'theirFault',
  'west',
  'east',
  'none',
] as const;
export type ArrivalName = (typeof ARRIVALS)[number];

/** What each is called on the page. */
export const ARRIVAL_WORDS: Readonly<Record<ArrivalName, string>> = {
  thisStroke: 'By the stroke that scored',
  theirStroke: "By an opponent's stroke",
  touched: "It touched an opponent's ball on its way",
  theirFault: "By the opponents' fault or wrong ball",
  west: 'Directed to the west penalty area',
  east: 'Directed to the east penalty area',
  none: 'By its own side, none of these',
};

/** The same in the form that the rules take. Which of the opponents' balls it was makes no difference to them. */
export const arrivalOf = (name: ArrivalName, colour: BallColour): ArrivedBy => {
  const opponent = opponentsOf(colour)[0];
  switch (name) {
    case 'thisStroke':
      return { thisTurn: true };
    case 'theirStroke':
      return { strokeOf: opponent, touched: [], thisTurn: false };
    case 'touched':
      return { strokeOf: colour, touched: [opponent], thisTurn: false };
    case 'theirFault':
      return { faultOf: opponent };
    case 'west':
    case 'east':
      return { directedTo: name };
    case 'none':
      return { strokeOf: colour, touched: [], thisTurn: false };
  }
};

/** Which of the page's answers a stored one is; null when nothing was said, or something the page does not ask. */
export const nameOfArrival = (arrived: ArrivedBy | undefined, colour: BallColour): ArrivalName | null => {
  if (!arrived) return null;
  if (arrived.directedTo) return arrived.directedTo;
  if (arrived.faultOf) return 'theirFault';
  if (arrived.thisTurn) return 'thisStroke';
  if (!arrived.strokeOf) return null;
  const opponents: readonly BallColour[] = opponentsOf(colour);
  if (opponents.includes(arrived.strokeOf)) return 'theirStroke';
  return arrived.touched?.some((ball) => opponents.includes(ball)) ? 'touched' : 'none';
};
