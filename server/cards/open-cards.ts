import type { PhotoRecord } from '../contract/record.ts';
import { callDocument, callFrame } from './call-card.ts';
import type { CardOptions } from './card-options.ts';
import { cardText } from './card-text.ts';
import { checkDocument, checkFrame } from './check-card.ts';
import { type GamePrint, planSheet } from './game-prints.ts';
import { putBackDocument, putBackFrame } from './put-back-card.ts';
import { scoreDocument, scoreFrame } from './score-sheet.ts';
import { type Frame, pagesOf, type Row, scrollOf } from './sheet/pages.ts';
import { toPdf } from './sheet/to-pdf.ts';
import { toPng } from './sheet/to-png.ts';
import { toSvg } from './sheet/to-svg.ts';

const documentOf = async (record: PhotoRecord, options: CardOptions): Promise<[Frame, Row[]]> =>
  record.kind === 'check'
    ? [checkFrame(record, options), checkDocument(record, options)]
    : [callFrame(record, options), await callDocument(record, options)];

const createdAt = ({ log }: GamePrint): Date => new Date(log.entries.at(-1)?.at ?? 0);

/** Draws what is printed or shared: the same sheets as a picture, as pages, and their words alone. */
export const openCards = () => ({
  png: async (record: PhotoRecord, options: CardOptions): Promise<Uint8Array> =>
    toPng(scrollOf(...(await documentOf(record, options)))),
  pdf: async (record: PhotoRecord, options: CardOptions): Promise<Uint8Array> =>
    toPdf(pagesOf(...(await documentOf(record, options))), new Date(record.updatedAt)),
  text: cardText,
  planSvg: (print: GamePrint): string => toSvg(planSheet(print)),
  planPng: (print: GamePrint): Promise<Uint8Array> => toPng(planSheet(print)),
  scorePdf: (print: GamePrint): Promise<Uint8Array> =>
    toPdf(pagesOf(scoreFrame(print), scoreDocument(print)), createdAt(print)),
  putBackPdf: (print: GamePrint): Promise<Uint8Array> =>
    toPdf(pagesOf(putBackFrame(print), putBackDocument(print)), createdAt(print)),
});
