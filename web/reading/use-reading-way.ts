import { useDrafts } from '../draft/use-draft.ts';
import { useWay } from '../shell/steps.tsx';

/** Tells the head where on the way a reading is; the earlier steps lead to its draft, or to a page that makes one again. */
export const useReadingWay = (readingId: string, at: number): void => {
  const draft = useDrafts().find((one) => one.readingId === readingId);
  useWay(
    [
      { label: 'Photo', to: draft ? `/photo/${draft.id}` : `/again/${readingId}/photo` },
      { label: 'Marks', to: draft ? `/marks/${draft.id}` : `/again/${readingId}/marks` },
      { label: 'Balls', to: `/balls/${readingId}` },
      { label: 'Call', to: `/call/${readingId}` },
    ],
    at,
  );
};
