import type { RecordKind } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { measurePicture } from '../photo/picture.ts';
import { newKey } from '../service/new-key.ts';
import type { Draft } from './draft.ts';
import { addDraft } from './draft-store.ts';

/** Largest file the server takes, bytes: 60 MB. The same number as the server's own limit, which has the last word. */
const LARGEST_FILE = 60_000_000;

/** What is already known of a new draft. */
export type DraftStart = Partial<
  Pick<
    Draft,
    | 'kind'
    | 'hoopScored'
    | 'balls'
    | 'spot'
    | 'game'
    | 'court'
    | 'lawn'
    | 'useChecked'
    | 'pins'
    | 'photoId'
    | 'size'
    | 'name'
    | 'straightToCall'
  >
>;

/** A photo that cannot be taken, in one sentence. */
export class PhotoRefused extends Error {}

const blank = (kind: RecordKind, balls: readonly BallColour[]): Draft => ({
  id: newKey(),
  kind,
  createdAt: Date.now(),
  version: 1,
  name: 'photo',
  size: null,
  shownHere: false,
  pins: {},
  hoopScored: null,
  balls,
  spot: null,
  game: null,
  state: 'marking',
  photoId: null,
  readingId: null,
  sendKey: newKey(),
  past: [],
  pinsFrom: null,
  straightToCall: false,
  trouble: null,
});

const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0);

const requireFitting = (file: File): void => {
  if (file.size === 0) throw new PhotoRefused(`"${file.name}" is empty. Choose the photo again.`);
  if (file.size > LARGEST_FILE)
    throw new PhotoRefused(
      `This file has ${megabytes(file.size)} MB; up to 60 MB can be read. Choose the picture as the camera made it, or a JPEG of it.`,
    );
};

const kept = async (draft: Draft, file: File | null): Promise<Draft> => {
  try {
    await addDraft(draft, file);
  } catch {
    throw new PhotoRefused(
      'This browser has no room to keep the photo. Close other pages or free some storage on this device, then choose it again.',
    );
  }
  return draft;
};

/** Keeps a chosen photo in this browser as a new draft. Throws PhotoRefused with a sentence. */
export const draftFromFile = async (
  file: File,
  balls: readonly BallColour[],
  start: DraftStart = {},
): Promise<Draft> => {
  requireFitting(file);
  // A file that this browser cannot show (HEIC on most) is not wrong: the server opens it and sends an upright copy.
  const size = await measurePicture(file).catch(() => null);
  const draft = {
    ...blank(start.kind ?? 'lawn', balls),
    name: file.name,
    ...start,
    size,
    shownHere: size !== null,
  };
  return kept(draft, file);
};

/** A draft over a photo that the server already has: a sample, or a reading that is marked again. */
export const draftFromServer = (
  photoId: string,
  size: { width: number; height: number },
  balls: readonly BallColour[],
  start: DraftStart = {},
): Promise<Draft> => kept({ ...blank(start.kind ?? 'lawn', balls), ...start, photoId, size }, null);
