import type { PlayEvent, Turn, WrongBall } from '../../server/games/events.ts';
import type { GameState } from '../../server/games/state.ts';
import { sideName } from '../../server/rules/ball-order.ts';
import { ballName, listed } from '../words/balls.ts';

const sentences = (...parts: readonly (string | null)[]): string =>
  parts.filter((part) => part !== null).join(' ');

const sayPlay = (event: Turn | WrongBall, before: GameState | null): string => {
  const first = (before?.points.length ?? 0) + 1;
  const scored = event.scored.map((ball, i) => `${ballName(ball)} scored hoop ${first + i}.`);
  const pairs = event.touched?.map(([a, b]) => `${ballName(a)} and ${ballName(b)}`) ?? [];
  return sentences(
    event.type === 'wrongBall'
      ? `${ballName(event.ball)} was played, a wrong ball.`
      : `${ballName(event.ball)} played.`,
    pairs.length > 0 ? `${listed(pairs)} touched.` : null,
    scored.length > 0 ? scored.join(' ') : null,
  );
};

const REMEDIES = {
  replaceAndReplay: 'The balls were put back and the turn played again.',
  annul: 'The stroke was annulled and the balls put back.',
  ballSwap: 'The two balls of the side changed places.',
  leave: 'The balls were left where the wrong play put them.',
  putBack: 'The balls were put back.',
} as const;

const ENDS = {
  points: 'won on points',
  time: 'time was up',
  conceded: 'the game was conceded',
  abandoned: 'the game was given up',
} as const;

/** One entry of a game's log in a sentence or two, in the past. `before`: the game before it. */
export const sayEvent = (event: PlayEvent, before: GameState | null): string => {
  switch (event.type) {
    case 'begun':
      return `The game began: ${event.format}, ${event.colours} colours, to ${event.points} points.`;
    case 'turn':
    case 'wrongBall':
      return sayPlay(event, before);
    case 'remedy':
      return REMEDIES[event.choice];
    case 'direction':
      return event.choice === 'leave'
        ? `${ballName(event.ball)} was left where it lies.`
        : `${ballName(event.ball)} was directed to the ${event.choice} penalty area.`;
    case 'fault':
      return `Fault by the player of ${ballName(event.by)}; the balls were ${event.choice === 'leave' ? 'left' : 'put back'}.`;
    case 'ballsPutBack':
      return sentences('Balls were put back or measured again.', event.reason ?? null);
    case 'overrule':
      return `The referee decided: ${event.reason}`;
    case 'suspended':
      return event.reason ? `Play was suspended: ${event.reason}.` : 'Play was suspended.';
    case 'resumed':
      return 'Play went on.';
    case 'ended': {
      const colours = before?.setup.colours ?? 'first';
      const winner = event.winner === null ? 'nobody won' : `${sideName(colours, event.winner)} won`;
      return `The game ended: ${ENDS[event.reason]}; ${winner}.`;
    }
  }
};
