import type { PhotoRecord } from '../../server/contract/record.ts';
import { useDrafts } from '../draft/use-draft.ts';
import { type Step, useWay } from '../shell/steps.tsx';

/** Address of the answer that a record leads to. */
export const answerPath = ({ id, kind }: Pick<PhotoRecord, 'id' | 'kind'>): string =>
  kind === 'lawn' ? `/call/${id}` : `/court/${kind}/${id}`;

/** The steps of a record whose photo and marks are at these addresses: a court check has no balls. */
export const stepsOf = (
  record: Pick<PhotoRecord, 'id' | 'kind'>,
  { photo, marks }: { readonly photo: string | null; readonly marks: string | null },
): Step[] => {
  const first: Step[] = [
    { label: 'Photo', to: photo },
    { label: 'Marks', to: marks },
  ];
  if (record.kind === 'check') return [...first, { label: 'Court', to: answerPath(record) }];
  return [...first, { label: 'Balls', to: `/balls/${record.id}` }, { label: 'Call', to: answerPath(record) }];
};

/** Tells the head where on the way a record is; the earlier steps lead to its draft, or to a page that makes one again. */
export const useReadingWay = (record: Pick<PhotoRecord, 'id' | 'kind'>, at: number): void => {
  const { id } = record;
  const draft = useDrafts().find((one) => one.readingId === id);
  const photo = draft ? `/photo/${draft.id}` : `/again/${id}/photo`;
  const marks = draft ? `/marks/${draft.id}` : `/again/${id}/marks`;
  useWay(stepsOf(record, { photo, marks }), at);
};
