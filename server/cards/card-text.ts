import type { PhotoRecord } from '../contract/record.ts';
import { callFrame } from './call-card.ts';
import { callsOf } from './call-rows.ts';
import type { CardOptions } from './card-options.ts';
import { checkFrame } from './check-card.ts';
import { ballName, CAUTION, instantWords, lieWords, measuredWords, verdictWords } from './words.ts';

const callLines = (record: Exclude<PhotoRecord, { kind: 'check' }>, { settings }: CardOptions): string[] =>
  callsOf(record).map((call) => {
    const ruled =
      record.kind === 'lawn' ? record.verdict?.balls.find(({ colour }) => colour === call.colour) : undefined;
    const verdict = ruled ? ` ${verdictWords(ruled)}` : '';
    return `${ballName(call.colour)}: ${lieWords(call)}. ${measuredWords(call, settings.units)}.${verdict}`;
  });

const checkLines = ({ markers, hoops, peg }: Extract<PhotoRecord, { kind: 'check' }>): string[] => {
  const millimetres = (value: number | null) =>
    value === null ? 'not seen' : `${Math.round(value * 1000)} mm`;
  return [
    ...markers.map(({ name, along }) => `${name}: ${millimetres(along)} along its boundary`),
    ...[...hoops, { ...peg, name: 'peg' }].map(
      ({ name, dx, dy }) => `${name}: ${millimetres(dx)} to the east, ${millimetres(dy)} to the north`,
    ),
  ];
};

/** The answer as plain text that can be read aloud or sent on. */
export const cardText = (record: PhotoRecord, options: CardOptions): string => {
  const { title, aside } = record.kind === 'check' ? checkFrame(record, options) : callFrame(record, options);
  const lines = record.kind === 'check' ? checkLines(record) : callLines(record, options);
  const note = record.note ? [`Note: ${record.note}`] : [];
  const head = [title, aside[1], instantWords(record.createdAt)].filter(Boolean).join(' · ');
  return `${[head, '', record.sentence, '', ...lines, ...note, '', CAUTION].join('\n').replaceAll(/\n{3,}/g, '\n\n')}\n`;
};
