import type { GameLog } from '../games/log.ts';
import { hoopsOf, type PointScored, scoreOf } from '../games/state.ts';
import { titleOf, viewGame } from '../games/view-game.ts';
import { legOf } from '../rules/hoop-order.ts';
import type { GamePrint } from './game-prints.ts';
import { ballMark } from './parts/ball-mark.ts';
import { LOOK } from './parts/look.ts';
import { type Cell, type Column, headingRow, headRow, tableRow } from './parts/rows.ts';
import { text } from './parts/text.ts';
import { type Frame, gap, MARGIN, type Row, TEXT_WIDTH } from './sheet/pages.ts';
import { ballName, instantWords } from './words.ts';

const POINT_COLUMNS: readonly Column[] = [
  { title: 'Point', width: 60 },
  { title: 'Hoop', width: 110 },
  { title: 'Scored by', width: 173 },
  { title: 'Score', width: 90, align: 'right' },
  { title: 'Entry', width: 90, align: 'right' },
];

const scoreRow = ({ log, settings }: GamePrint): Row => {
  const { sides } = viewGame(log.state);
  return {
    height: 74,
    draw: (y) =>
      sides.flatMap(({ balls, name, points }, index) => {
        const right = index === 1;
        const x = right ? MARGIN + TEXT_WIDTH : MARGIN;
        const inward = right ? -1 : 1;
        return [
          ...balls.flatMap((ball, place) =>
            ballMark(ball, [x + inward * (12 + 30 * place), y + 16], 11, settings.letters),
          ),
          text(x, y + 50, name ?? balls.map(ballName).join(' and '), {
            size: 13,
            weight: 600,
            align: right ? 'right' : 'left',
          }),
          text(MARGIN + TEXT_WIDTH / 2 + (right ? 44 : -44), y + 44, String(points), {
            size: 44,
            weight: 700,
            align: 'middle',
          }),
          ...(right
            ? [text(MARGIN + TEXT_WIDTH / 2, y + 40, '–', { size: 30, align: 'middle', colour: LOOK.soft })]
            : []),
        ];
      }),
  };
};

const pointRows = ({ log }: GamePrint): Row[] => {
  const { points, setup } = log.state;
  const hoops = hoopsOf(setup);
  const row = (scored: PointScored | undefined, index: number): Row => {
    const leg = legOf(hoops, index + 1);
    const place = leg ? `${leg.hoop}, ${leg.direction === 1 ? 'northward' : 'southward'}` : '';
    if (scored === undefined) return tableRow(POINT_COLUMNS, [String(index + 1), place, '', '', '']);
    const score = scoreOf(points.slice(0, index + 1));
    const scorer: Cell = { words: ballName(scored.ball), setting: { weight: 600 } };
    return tableRow(POINT_COLUMNS, [
      String(index + 1),
      place,
      scorer,
      `${score[0]} – ${score[1]}`,
      String(scored.entry),
    ]);
  };
  return [headRow(POINT_COLUMNS), ...hoops.map((_, index) => row(points[index], index))];
};

const EVENT_COLUMNS: readonly Column[] = [
  { title: 'Entry', width: 44 },
  { title: 'What happened', width: 369 },
  { title: 'When', width: 110, align: 'right' },
];

const eventWords = ({ event }: GameLog['effective'][number]): string => {
  switch (event.type) {
    case 'begun':
      return `The game begins: ${event.points} points, edition ${event.edition}`;
    case 'turn':
      return `${ballName(event.ball)} plays${event.scored.length > 0 ? `; ${event.scored.map(ballName).join(' and ')} scores` : ''}`;
    case 'wrongBall':
      return `${ballName(event.ball)} is played wrongly${event.player === event.ball ? '' : `, by the player of ${event.player}`}`;
    case 'remedy':
      return `The wrong ball is settled: ${event.choice.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)}`;
    case 'direction':
      return `${ballName(event.ball)} is offside: ${event.choice === 'leave' ? 'it is left where it is' : `to the ${event.choice} penalty area`}`;
    case 'fault':
      return `Fault of the side of ${event.by}; the balls are ${event.choice === 'leave' ? 'left' : 'put back'}`;
    case 'ballsPutBack':
      return `Balls put back${event.reason ? `: ${event.reason}` : ''}`;
    case 'overrule':
      return `The referee decides otherwise: ${event.reason}`;
    case 'suspended':
      return `Play stops${event.reason ? `: ${event.reason}` : ''}`;
    case 'resumed':
      return 'Play goes on';
    case 'ended':
      return `The game ends (${event.reason})`;
  }
};

const eventRows = ({ log }: GamePrint): Row[] => {
  const at = new Map(log.entries.map((entry) => [entry.number, entry.at]));
  return [
    headRow(EVENT_COLUMNS),
    ...log.effective.map((effective) =>
      tableRow(EVENT_COLUMNS, [
        String(effective.number),
        eventWords(effective),
        (at.get(effective.number) ?? '').slice(11, 16).concat(' UTC'),
      ]),
    ),
  ];
};

const statusWords = ({ log }: GamePrint): string => {
  const { status, sides, winner } = viewGame(log.state);
  if (winner === null)
    return { playing: 'Under way', won: 'Won', suspended: 'Suspended', ended: 'Ended without a winner' }[
      status
    ];
  const side = sides[winner]!;
  return `Won by ${side.name ?? side.balls.map(ballName).join(' and ')}`;
};

/** What stands at the head and the foot of the sheet. */
export const scoreFrame = (print: GamePrint): Frame => {
  const { log } = print;
  const begun = log.entries[0];
  return {
    title: titleOf(log.state),
    aside: [
      begun ? instantWords(begun.at) : '',
      [log.state.setup.lawnName, statusWords(print)].filter(Boolean).join(' · '),
    ],
    footer: `Score sheet after ${log.version} entries of the log.`,
    label: `Score sheet of ${titleOf(log.state)}. ${statusWords(print)}.`,
  };
};

/** The rows of a score sheet: the score, every point, and every entry of the log that is in force. */
export const scoreDocument = (print: GamePrint): Row[] => [
  scoreRow(print),
  headingRow('Points'),
  ...pointRows(print),
  gap(12),
  headingRow('The game, entry by entry'),
  ...eventRows(print),
];
