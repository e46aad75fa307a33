import type { Request } from 'express';
import type { LawnRecord, PhotoRecord, RecordKind } from '../../contract/record.ts';
import { defaultSettings, type Settings } from '../../contract/settings.ts';
import { sayVerdict } from '../../contract/verdict.ts';
import type { Tables } from '../../store/store.ts';
import type { Deps, Job } from '../deps.ts';
import { type Given, keyOf, type Prepared } from '../jobs/answer-once.ts';
import type { Service } from '../service.ts';
import { withCheckedPlaces } from './checked-marks.ts';
import { judgeRecord } from './judge-record.ts';
import { type Order, orderOf } from './order.ts';
import { shown } from './shown.ts';

/** The settings in force. */
export const settingsOf = async (deps: Deps): Promise<Settings> =>
  (await deps.store.settings.get()) ?? defaultSettings();

const head = (deps: Deps, order: Order) => {
  const at = deps.now().toISOString();
  return {
    id: deps.newId(),
    revision: 1,
    createdAt: at,
    updatedAt: at,
    photoId: order.photoId,
    marks: order.marks,
    ...order.labels,
  };
};

const lawnRecord = async (deps: Deps, order: Order, job: Job): Promise<LawnRecord> => {
  const answer = await deps.readers.read(order.bytes, order.marks, job);
  const unjudged = { ...head(deps, order), kind: 'lawn', ...answer, arrivedBy: {}, verdict: null } as const;
  return judgeRecord(deps, { ...unjudged, sentence: sayVerdict(unjudged) }, await settingsOf(deps));
};

const recordOf = async (deps: Deps, order: Order, job: Job): Promise<PhotoRecord> => {
  switch (order.kind) {
    case 'lawn':
      return lawnRecord(deps, order, job);
    case 'sighting': {
      const marks = await withCheckedPlaces(deps, order.marks);
      const answer = await deps.readers.sight(order.bytes, marks, job);
      const record = { ...head(deps, { ...order, marks }), kind: 'sighting', ...answer } as const;
      return { ...record, sentence: sayVerdict(record) };
    }
    case 'check': {
      const { tolerance } = await settingsOf(deps);
      const marks = { ...order.marks, tolerance: order.marks.tolerance ?? tolerance };
      const answer = await deps.readers.check(order.bytes, marks, job);
      const record = { ...head(deps, { ...order, marks }), kind: 'check', ...answer } as const;
      return { ...record, sentence: sayVerdict(record) };
    }
  }
};

/** The spot remembers the marks of its last picture, so that the next one starts from them. */
const rememberMarks = async (tables: Tables, record: PhotoRecord): Promise<void> => {
  const spot = record.spot === null ? null : await tables.spots.get(record.spot);
  const photo = await tables.photos.get(record.photoId);
  if (spot === null || photo === null) return;
  const { width, height } = photo;
  await tables.spots.replace({
    ...spot,
    marks: record.marks,
    photo: { width, height },
    updatedAt: record.createdAt,
  });
};

const prepare = async (deps: Deps, order: Order, job: Job): Promise<Prepared> => {
  const record = await recordOf(deps, order, job);
  job.signal.throwIfAborted();
  const { newPhoto } = order;
  if (newPhoto) await deps.files.keep(newPhoto.photo.id, newPhoto.bytes);
  return {
    status: 201,
    body: shown(record),
    keep: async (tables) => {
      if (newPhoto) await tables.photos.create(newPhoto.photo);
      await tables.records.create(record);
      await rememberMarks(tables, record);
    },
    ...(newPhoto && { undo: () => deps.files.remove(newPhoto.photo.id) }),
  };
};

/** Reads the photo of a request and keeps photo and answer. Nothing is kept when it fails or is called off. */
export const takeReading = async (
  { deps, once, run }: Service,
  kind: RecordKind,
  request: Request,
): Promise<Given> => {
  const key = keyOf(request);
  const order = await orderOf(deps, kind, request);
  const asked = { scope: `POST ${kind}`, key, fingerprint: order.fingerprint };
  return once(asked, () => run(progressKeyOf(request), (job) => prepare(deps, order, job)));
};

const PROGRESS_KEY = /^[\w-]{8,100}$/;

/** The name of the progress channel that a request wants; undefined for none or one that cannot be a channel's name. */
export const progressKeyOf = (request: Request): string | undefined => {
  const key = request.get('x-progress-key');
  return key !== undefined && PROGRESS_KEY.test(key) ? key : undefined;
};
