import { type Match, type PictureScore, quantile, rmsRatio } from './measure.ts';

const mm = (metres: number): string => (Number.isNaN(metres) ? '–' : (metres * 1000).toFixed(0));
const ratio = (value: number): string => (Number.isNaN(value) ? '–' : value.toFixed(2));

/** Head of the table of pictures, in Markdown. */
export const READING_HEADER = [
  '| picture | found / visible | hidden found | wrong colour | false | median error mm | 95 % mm | error ÷ stated (rms) | error ÷ bound (median) | firm | wrong firm | missed |',
  '|---|---|---|---|---|---|---|---|---|---|---|---|',
].join('\n');

const cells = (name: string, scores: readonly PictureScore[]): string => {
  const matches: Match[] = scores.flatMap((score) => score.matches);
  const sum = (pick: (score: PictureScore) => number): number =>
    scores.reduce((total, score) => total + pick(score), 0);
  const errors = matches.map(({ error }) => error);
  return [
    name,
    `${sum((s) => s.found)} / ${sum((s) => s.visible)}`,
    `${sum((s) => s.foundHidden)} / ${sum((s) => s.hidden)}`,
    sum((s) => s.wrongColour.length),
    sum((s) => s.falseBalls.length),
    mm(quantile(errors, 0.5)),
    mm(quantile(errors, 0.95)),
    ratio(rmsRatio(matches)),
    ratio(
      quantile(
        matches.map(({ boundRatio }) => boundRatio),
        0.5,
      ),
    ),
    matches.filter(({ firm }) => firm).length,
    matches.filter(({ wrongCall }) => wrongCall).length,
    scores.length === 1 ? scores[0]!.missed.join(' ') : sum((s) => s.missed.length),
  ].join(' | ');
};

/** One picture as a row of the table. */
export const pictureRow = (score: PictureScore): string => `| ${cells(score.name, [score])} |`;

/** All pictures together as the last row. */
export const totalRow = (scores: readonly PictureScore[]): string => `| ${cells('**all**', scores)} |`;
