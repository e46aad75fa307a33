import type { Request } from 'express';
import type { z } from 'zod';
import type { Marks } from '../../contract/marks.ts';
import { parseInput, parseMarksText } from '../../contract/parse.ts';
import { LabelsSchema, ReadingRequestSchema, type RecordKind } from '../../contract/record.ts';
import { InputError } from '../../errors.ts';
import type { Deps } from '../deps.ts';
import { fingerprintOf } from '../jobs/answer-once.ts';
import { describePhoto, type NewPhoto } from '../pictures/store-photo.ts';
import { fieldOf, uploadedMarks, uploadedPhoto } from '../pictures/upload.ts';

/** What a request wants read: the bytes, a photo to be kept with the answer when it is a new one, the marks and the labels. */
export type Order = {
  readonly kind: RecordKind;
  readonly bytes: Uint8Array;
  readonly photoId: string;
  readonly newPhoto: NewPhoto | null;
  readonly marks: Marks;
  readonly labels: z.output<typeof LabelsSchema>;
  readonly fingerprint: string;
};

const noPhoto = (): InputError =>
  new InputError(
    'no-such-photo',
    'There is no photo with this id; it may have been deleted. Send the photo again.',
    404,
  );

const fromJson = async (deps: Deps, kind: RecordKind, body: unknown): Promise<Order> => {
  const { photoId, marks, ...labels } = parseInput(ReadingRequestSchema, body, 'request');
  const bytes = await deps.files.original(photoId);
  if (bytes === null || (await deps.store.photos.get(photoId)) === null) throw noPhoto();
  const fingerprint = fingerprintOf(kind, JSON.stringify({ photoId, marks, labels }));
  return { kind, bytes, photoId, newPhoto: null, marks, labels, fingerprint };
};

/** Labels of a form: each its own field, or `null` in a JSON request's place. */
const labelFields = (request: Request) =>
  parseInput(
    LabelsSchema,
    Object.fromEntries((['game', 'spot', 'note'] as const).map((name) => [name, fieldOf(request, name)])),
    'request',
  );

const fromForm = async (deps: Deps, kind: RecordKind, request: Request): Promise<Order> => {
  const bytes = await uploadedPhoto(request);
  const marks = parseMarksText(await uploadedMarks(request));
  const labels = labelFields(request);
  const newPhoto = await describePhoto(deps, bytes);
  const fingerprint = fingerprintOf(kind, bytes, JSON.stringify({ marks, labels }));
  return { kind, bytes, photoId: newPhoto.photo.id, newPhoto, marks, labels, fingerprint };
};

/** Refuses labels that name a game or a spot that is not there. */
export const checkLabels = async (deps: Deps, { game, spot }: Order['labels']): Promise<void> => {
  if (game !== null && (await deps.store.games.get(game)) === null)
    throw new InputError('no-such-game', 'There is no game with this id; choose one of the list, or none.');
  if (spot !== null && (await deps.store.spots.get(spot)) === null)
    throw new InputError('no-such-spot', 'There is no spot with this id; choose one of the list, or none.');
};

/** The order in a request, either a form with the photo itself or JSON that names a photo kept before. Rejects with an InputError. */
export const orderOf = async (deps: Deps, kind: RecordKind, request: Request): Promise<Order> => {
  const order = request.is('multipart/form-data')
    ? await fromForm(deps, kind, request)
    : await fromJson(deps, kind, request.body);
  await checkLabels(deps, order.labels);
  return order;
};
