import { CheckedPlaceSchema, type CheckedPlaces } from '../../contract/checked-places.ts';
import type { Marks } from '../../contract/marks.ts';
import type { ClubLawn } from '../../contract/spot.ts';
import { InputError } from '../../errors.ts';
import type { Deps } from '../deps.ts';

const lawnOf = async ({ store }: Deps, id: string): Promise<ClubLawn> => {
  const lawn = await store.lawns.get(id);
  if (lawn) return lawn;
  throw new InputError('no-such-lawn', 'There is no lawn with this id; choose one of the list, or none.');
};

/** The markers that the lawn's kept check saw; null when it has none, or the check was deleted. */
const placesOf = async ({ store }: Deps, { check }: ClubLawn): Promise<CheckedPlaces | null> => {
  const record = check && (await store.records.get(check.id));
  if (!check || record?.kind !== 'check') return null;
  const markers = record.markers.flatMap((marker) => {
    const place = CheckedPlaceSchema.safeParse(marker);
    return place.success ? [place.data] : [];
  });
  return { at: check.at, markers };
};

/**
 * The marks of a sighting with the places of the markers that the lawn's kept check found, when the marks name a lawn of the club (`lawn.id`), do not switch it off and
 * bring none of their own. Rejects with an InputError when there is no such lawn.
 */
export const withCheckedPlaces = async (deps: Deps, marks: Marks): Promise<Marks> => {
  const { id } = marks.lawn;
  if (id === undefined) return marks;
  const lawn = await lawnOf(deps, id);
  if (marks.checked || marks.useChecked === false) return marks;
  const checked = await placesOf(deps, lawn);
  return checked ? { ...marks, checked } : marks;
};
