import type { Request } from 'express';
import { parseInput } from '../../contract/parse.ts';
import {
  type Corrections,
  CorrectionsSchema,
  type LawnRecord,
  type PhotoRecord,
  type SightingRecord,
} from '../../contract/record.ts';
import { sayVerdict } from '../../contract/verdict.ts';
import { InputError } from '../../errors.ts';
import type { Deps } from '../deps.ts';
import { found, idOf } from '../handle.ts';
import { judgeRecord } from './judge-record.ts';
import { checkLabels } from './order.ts';
import { shown } from './shown.ts';
import { settingsOf } from './take-reading.ts';

const conflict = (record: PhotoRecord): InputError =>
  new InputError(
    'revision-conflict',
    `The reading was corrected elsewhere meanwhile (it is at revision ${record.revision}); load it again and repeat the correction.`,
    409,
    { revision: record.revision },
  );

/** Corrections that need the answer worked out again, not only a label changed. */
const touchesAnswer = (corrections: Corrections): boolean =>
  (['balls', 'hoopScored', 'certainty', 'arrivedBy', 'inPlay', 'tap'] as const).some(
    (name) => corrections[name] !== undefined,
  );

const labelled = <T extends PhotoRecord>(record: T, corrections: Corrections): T => ({
  ...record,
  ...(corrections.game !== undefined && { game: corrections.game }),
  ...(corrections.spot !== undefined && { spot: corrections.spot }),
  ...(corrections.note !== undefined && { note: corrections.note }),
});

const arrivals = (record: LawnRecord, { arrivedBy }: Corrections): LawnRecord => {
  const merged = Object.entries({ ...record.arrivedBy, ...arrivedBy }).filter(([, how]) => how !== null);
  return { ...record, arrivedBy: Object.fromEntries(merged) };
};

/** An earlier revision's answer under the labels of now. */
const restored = async (deps: Deps, record: PhotoRecord, revision: number): Promise<PhotoRecord> => {
  const former = (await deps.store.records.revisions(record.id)).find((kept) => kept.revision === revision);
  if (former === undefined)
    throw new InputError(
      'no-such-revision',
      `The reading has no revision ${revision}; it has 1 to ${record.revision}.`,
    );
  const { game, spot, note, revision: current } = record;
  return { ...former, game, spot, note, revision: current };
};

const notCorrectable = (message: string): InputError => new InputError('not-correctable', message);

const evaluatedSighting = (deps: Deps, record: SightingRecord, corrections: Corrections): SightingRecord => {
  if (corrections.arrivedBy !== undefined)
    throw notCorrectable(
      'How a ball arrived is kept with a picture of the whole lawn or with the game; say it there.',
    );
  const answer = deps.reEvaluateSighting(record, corrections);
  return { ...answer, sentence: sayVerdict(answer) };
};

const evaluated = async (deps: Deps, record: PhotoRecord, corrections: Corrections): Promise<PhotoRecord> => {
  if (!touchesAnswer(corrections)) return record;
  if (record.kind === 'check')
    throw notCorrectable('A court check holds no balls to be corrected; check the picture again instead.');
  if (record.kind === 'sighting') return evaluatedSighting(deps, record, corrections);
  if (corrections.tap !== undefined)
    throw notCorrectable('A ball is tapped on a picture along the line only; here every ball is judged.');
  const settings = await settingsOf(deps);
  const answer = await deps.reEvaluate(arrivals(record, corrections), corrections, settings);
  return judgeRecord(deps, { ...answer, sentence: sayVerdict(answer) }, settings);
};

const correct = async (deps: Deps, record: PhotoRecord, corrections: Corrections): Promise<PhotoRecord> => {
  const { game = null, spot = null, note = null } = corrections;
  await checkLabels(deps, { game, spot, note });
  const start =
    corrections.restore === undefined ? record : await restored(deps, record, corrections.restore);
  const answer = await evaluated(deps, labelled(start, corrections), corrections);
  return { ...answer, revision: record.revision + 1, updatedAt: deps.now().toISOString() };
};

/** Corrects the record of a request and keeps the outcome as its next revision. */
export const correctRecord = async (deps: Deps, request: Request): Promise<PhotoRecord> => {
  const id = idOf(request, 'reading');
  const corrections = parseInput(CorrectionsSchema, request.body, 'corrections');
  const record = found(await deps.store.records.get(id), 'reading');
  if (corrections.revision !== undefined && corrections.revision !== record.revision) throw conflict(record);
  const corrected = await correct(deps, record, corrections);
  if (await deps.store.records.revise(corrected)) return shown(corrected);
  throw conflict(found(await deps.store.records.get(id), 'reading'));
};

/** Removes the record of a request, the answers that speak of it, and its photo when nothing else uses it. */
export const removeRecord = async (deps: Deps, request: Request): Promise<void> => {
  const id = idOf(request, 'reading');
  const record = found(await deps.store.records.get(id), 'reading');
  const photoGone = await deps.store.atomically(async (tables) => {
    await tables.records.remove(id);
    await tables.answers.forgetAbout(id);
    if (await tables.photos.inUse(record.photoId)) return false;
    await tables.answers.forgetAbout(record.photoId);
    return tables.photos.remove(record.photoId);
  });
  if (photoGone) await deps.files.remove(record.photoId);
};
