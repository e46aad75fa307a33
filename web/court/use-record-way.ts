import type { PhotoRecord } from '../../server/contract/record.ts';
import { useDrafts } from '../draft/use-draft.ts';
import { useWay } from '../shell/steps.tsx';

/** Tells the head that this record is the last of three steps, and where its photo and marks are. */
export const useRecordWay = ({ id }: Pick<PhotoRecord, 'id'>, last: string): void => {
  const draft = useDrafts().find(({ readingId }) => readingId === id);
  useWay(
    [
      { label: 'Photo', to: draft ? `/photo/${draft.id}` : `/again/${id}/photo` },
      { label: 'Marks', to: draft ? `/marks/${draft.id}` : `/again/${id}/marks` },
      { label: last, to: null },
    ],
    2,
  );
};
