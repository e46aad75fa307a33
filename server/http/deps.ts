import type { Limits } from '../config.ts';
import type { CourtCheck } from '../contract/court-check.ts';
import type { Answer, Question } from '../contract/judge.ts';
import type { Marks } from '../contract/marks.ts';
import type { Guess, Photo, Sample, Trace } from '../contract/photo.ts';
import type { Reading } from '../contract/reading.ts';
import type { Corrections, LawnRecord, PhotoRecord, SightingRecord } from '../contract/record.ts';
import type { ProgressEvent } from '../contract/service.ts';
import type { Settings } from '../contract/settings.ts';
import type { Sighting } from '../contract/sight.ts';
import type { Stands, StandsRequest } from '../contract/stands.ts';
import type { GameLog } from '../games/log.ts';
import type { Log } from '../logging.ts';
import type { PhotoFiles } from '../store/files/photo-files.ts';
import type { Store } from '../store/store.ts';

/** A job in a worker: it may be called off, and says what it is doing. */
export type Job = {
  readonly signal: AbortSignal;
  readonly report: (event: ProgressEvent) => void;
};

/** A spot's last picture, from which the marks of the next one follow. */
export type FormerPicture = { readonly photo: Uint8Array; readonly marks: Marks };

/** The jobs that need the pixels. Each rejects with an InputError when the picture or the marks are at fault. */
export interface Readers {
  read(photo: Uint8Array, marks: Marks, job: Job): Promise<Reading>;
  sight(photo: Uint8Array, marks: Marks, job: Job): Promise<Sighting>;
  check(photo: Uint8Array, marks: Marks, job: Job): Promise<CourtCheck>;
  trace(photo: Uint8Array, marks: Marks, job: Job): Promise<Trace>;
  guess(photo: Uint8Array, former: FormerPicture | null, job: Job): Promise<Guess>;
  /** The straightened lawn as a JPEG. */
  overhead(photo: Uint8Array, record: LawnRecord, job: Job): Promise<Uint8Array>;
}

/** What a photo's header tells. */
export type PhotoFacts = Pick<Photo, 'width' | 'height' | 'format' | 'focal35' | 'focalPixels' | 'takenAt'>;

/** The room that opens photos. Each rejects with an InputError when the file is no picture that can be read. */
export interface PhotoRoom {
  /** From the header alone, limits enforced. */
  facts(photo: Uint8Array): Promise<PhotoFacts>;
  /** The upright picture as a JPEG; every pixel is decoded, so a cut-off file is found out. */
  upright(photo: Uint8Array): Promise<Uint8Array>;
  /** A small upright JPEG of at most `side` px a side. */
  thumbnail(photo: Uint8Array, side: number): Promise<Uint8Array>;
}

/** Evaluates a kept reading again with corrections of its balls, its question or its history. Rejects with an InputError. */
export type ReEvaluate = (
  record: LawnRecord,
  corrections: Corrections,
  settings: Settings,
) => Promise<LawnRecord> | LawnRecord;

/** The same for a kept sighting. Rejects with an InputError. */
export type ReEvaluateSighting = (record: SightingRecord, corrections: Corrections) => SightingRecord;

/** What a card leaves out or shows. */
export type CardOptions = {
  /** Upright JPEG of the photo; null leaves the photo, and with it the people, out. */
  readonly photo: Uint8Array | null;
  readonly settings: Settings;
  /** Names of the spot and the game, where there are any. */
  readonly spot: string | null;
  readonly game: string | null;
};

/** A game at a moment: after the entry of number `entry`. */
export type GamePrint = { readonly log: GameLog; readonly entry: number; readonly settings: Settings };

/** Draws what is printed or shared. */
export interface Cards {
  png(record: PhotoRecord, options: CardOptions): Promise<Uint8Array>;
  pdf(record: PhotoRecord, options: CardOptions): Promise<Uint8Array>;
  text(record: PhotoRecord, options: CardOptions): string;
  planSvg(print: GamePrint): string;
  planPng(print: GamePrint): Promise<Uint8Array>;
  scorePdf(print: GamePrint): Promise<Uint8Array>;
  putBackPdf(print: GamePrint): Promise<Uint8Array>;
}

/** Sample pictures that come with the program. */
export interface Samples {
  list(): Promise<readonly Sample[]>;
  /** The file of sample `name`; null when there is none. */
  photo(name: string): Promise<Uint8Array | null>;
}

/** `T` as the rules give it: nobody changes it. */
type Given<T> = T extends readonly (infer E)[]
  ? readonly Given<E>[]
  : T extends object
    ? { readonly [K in keyof T]: Given<T[K]> }
    : T;
/** The rules' answer to a question. */
export type Judge = (question: Question) => Given<Answer>;
/** Where to stand. */
export type FindStands = (request: StandsRequest) => Promise<Stands> | Stands;

/** Everything the HTTP service stands on; `start.ts` wires it, tests put fakes in. */
export type Deps = {
  readonly store: Store;
  readonly files: PhotoFiles;
  readonly photos: PhotoRoom;
  readonly readers: Readers;
  readonly reEvaluate: ReEvaluate;
  readonly reEvaluateSighting: ReEvaluateSighting;
  readonly judge: Judge;
  readonly stands: FindStands;
  readonly cards: Cards;
  readonly samples: Samples;
  readonly now: () => Date;
  readonly newId: () => string;
  readonly log: Log;
  readonly limits: Limits;
  readonly version: string;
  /** Folder for uploads on their way in; on the same disk as the photos. */
  readonly incoming: string;
  /** Address listened on, and further names under which the service may be asked for. */
  readonly host: string;
  readonly names: readonly string[];
};
