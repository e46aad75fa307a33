import type { Sample } from '../../server/contract/photo.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import type { Pins } from '../draft/draft.ts';
import { updateDraft } from '../draft/draft-store.ts';
import { draftFromServer } from '../draft/new-draft.ts';
import { newKey } from '../service/new-key.ts';
import { photoFacts, takeSample } from '../service/photos.ts';

/** Makes a sample a photo of this installation, marked and ready, and has it read at once. Resolves with the draft's id. */
export const startSample = async (sample: Sample): Promise<string> => {
  const { photoId, marks } = await takeSample(sample.name, newKey());
  const { width, height } = await photoFacts(photoId);
  const draft = await draftFromServer(photoId, { width, height }, marks.balls ?? BALL_COLOURS, {
    kind: sample.kind,
    // A sample shows no lawn of this club.
    lawn: null,
    name: sample.title,
    pins: marks.points as Pins,
    straightToCall: true,
    hoopScored: (marks.hoopScored as HoopPoint | undefined) ?? null,
  });
  await updateDraft(draft.id, (now) => ({ ...now, state: 'waiting' }));
  return draft.id;
};
