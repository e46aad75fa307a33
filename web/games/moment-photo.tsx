import { useMemo } from 'react';
import { Link } from 'wouter';
import type { LawnRecord, SightingRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { CallPhoto } from '../call/call-photo.tsx';
import { seenLawnOf } from '../call/seen-lawn.ts';
import parts from '../parts/parts.module.css';
import { useReading } from '../reading/use-reading.ts';
import { answerPath } from '../reading/use-reading-way.ts';
import { Refusal } from '../service/request.ts';
import style from './moment-photo.module.css';

type Props = { readonly record: LawnRecord | SightingRecord; readonly chosen: BallColour | null };

const Shown = ({ record, chosen }: Props) => {
  const lawn = useMemo(() => seenLawnOf(record), [record]);
  return (
    <figure className={style.figure}>
      {lawn && <CallPhoto lawn={lawn} chosen={chosen} />}
      <figcaption>
        <Link href={answerPath(record)} className={parts.link ?? ''}>
          Its photo and call
        </Link>
      </figcaption>
    </figure>
  );
};

/** The photo of a moment of the game beside its plan, with the line and the balls' letters; nothing while it is fetched. */
export const MomentPhoto = ({ reading, chosen }: { reading: string; chosen: BallColour | null }) => {
  const { data, error } = useReading(reading);
  if (error instanceof Refusal && error.status === 404)
    return <p className="soft">The picture of this turn was deleted; its places are kept.</p>;
  if (!data || data.kind === 'check') return null;
  return <Shown record={data} chosen={chosen} />;
};
