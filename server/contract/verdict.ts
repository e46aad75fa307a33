import type { BallColour } from '../lawn/colours.ts';
import type { CourtCheck } from './court-check.ts';
import type { BallCall, Lies } from './reading.ts';
import type { PhotoRecord } from './record.ts';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "Blue", "Blue and Red", "Blue, Red and Black". */
const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

const SAYING: Readonly<Record<Lies, string>> = {
  beyond: 'past the line',
  short: 'not past the line',
  tooClose: 'too close to call',
};

/** Where the balls lie in one sentence, the firm ones first. */
export const sayCalls = (balls: readonly Pick<BallCall, 'colour' | 'lies'>[]): string => {
  const parts = (['beyond', 'short', 'tooClose'] as const).flatMap((lies) => {
    const names = balls.filter((ball) => ball.lies === lies).map(({ colour }) => capital(colour));
    return names.length > 0 ? [`${listed(names)} ${names.length > 1 ? 'are' : 'is'} ${SAYING[lies]}`] : [];
  });
  return parts.length === 0 ? 'No ball was found.' : `${parts.join('; ')}.`;
};

const sayFound = (balls: readonly { readonly colour: BallColour }[]): string =>
  balls.length === 0
    ? 'No ball was found.'
    : `${listed(balls.map(({ colour }) => capital(colour)))} found; there is no line to judge.`;

const sayCheck = ({ markers, hoops, peg }: CourtCheck): string => {
  const places = [...markers, ...hoops, peg];
  const off = places.filter(({ within }) => within === false).length;
  const unsure = places.filter(({ within, sd }) => within === null && sd !== null).length;
  const unseen = places.filter(({ sd }) => sd === null).length;
  const parts = [
    off === 0
      ? 'No place is certainly off'
      : `${off} of ${places.length} places ${off === 1 ? 'is' : 'are'} off`,
    ...(unsure > 0 ? [`${unsure} too close to say`] : []),
    ...(unseen > 0 ? [`${unseen} not seen`] : []),
  ];
  return `${parts.join(', ')}.`;
};

/** A record's answer without what only a stored record has. */
type Answered =
  | Pick<Extract<PhotoRecord, { kind: 'lawn' }>, 'kind' | 'balls' | 'call'>
  | Pick<Extract<PhotoRecord, { kind: 'sighting' }>, 'kind' | 'balls'>
  | ({ kind: 'check' } & CourtCheck);

/** The answer in one short sentence that can be read aloud. */
export const sayVerdict = (answer: Answered): string => {
  switch (answer.kind) {
    case 'lawn':
      return answer.call ? sayCalls(answer.call.balls) : sayFound(answer.balls);
    case 'sighting':
      return sayCalls(answer.balls);
    case 'check':
      return sayCheck(answer);
  }
};
