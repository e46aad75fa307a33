import { useCallback, useMemo } from 'react';
import type { LawnRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { imagePoint } from '../../server/units/points.ts';
import { photoAddress } from '../api/photos.ts';
import { drawHalfway, drawOutlines } from '../perspective/draw-halfway.ts';
import { callBox, cameraOf, courtOfMarks, outlineAt } from '../perspective/reading-camera.ts';
import { type Overlay, PhotoStage, type Stage } from '../photo/photo-stage.tsx';
import { fetchPhoto, usePicture } from '../photo/use-picture.ts';
import { toFrame } from '../photo/view.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { spreadDiscs } from '../plan/spread-discs.ts';
import style from './call.module.css';

/** How far above its ball a letter hangs, and how much room it keeps, CSS px. */
const RISE = 30;
const ROOM = 14;

const Letters = ({ record, stage }: { record: LawnRecord; stage: Stage }) => {
  const feet = record.balls.map(({ image }) => toFrame(stage.view, imagePoint(image[0], image[1])));
  const heads = spreadDiscs(
    feet.map(({ left, top }) => ({ x: left, y: top - RISE })),
    ROOM,
  );
  return (
    <>
      <svg className={style.leaders} aria-hidden="true">
        {heads.map(({ x, y }, i) => (
          <path
            key={record.balls[i]!.colour}
            d={`M${x} ${y}L${feet[i]!.left} ${feet[i]!.top - 5}`}
            stroke="#fbfaf4"
            strokeWidth="1.4"
          />
        ))}
      </svg>
      {heads.map(({ x, y }, i) => (
        <span
          key={record.balls[i]!.colour}
          className={style.letter}
          style={{ transform: `translate(${x - 13}px, ${y - 13}px)` }}
        >
          <BallDisc colour={record.balls[i]!.colour} size={26} />
        </span>
      ))}
    </>
  );
};

/** The photo with the halfway line, its upright plane and the balls' letters. */
export const CallPhoto = ({ record, chosen }: { record: LawnRecord; chosen: BallColour | null }) => {
  const { photoId, photo } = record;
  const state = usePicture(`photo ${photoId}`, () => fetchPhoto(photoAddress(photoId)), photo);
  const camera = useMemo(() => cameraOf(record), [record]);
  const court = useMemo(() => courtOfMarks(record.marks.lawn), [record]);
  const start = useMemo(() => callBox(camera, court, record), [camera, court, record]);
  const overlay = useCallback<Overlay>(
    (context, stage) => {
      if (record.call) drawHalfway(context, stage, camera, court, record.call.line, record.balls);
      drawOutlines(
        context,
        stage,
        record.balls.map(({ image, colour }) => ({
          points: outlineAt(camera, imagePoint(image[0], image[1])),
          strong: colour === chosen,
        })),
      );
    },
    [record, camera, court, chosen],
  );
  if (state.state === 'failed') return <p className={style.noPhoto}>{state.message}</p>;
  return (
    <div className={style.photo}>
      {state.state === 'open' && (
        <PhotoStage
          picture={state.picture}
          label="The photo with the halfway line drawn on it"
          start={start}
          overlay={overlay}
        >
          {(stage) => <Letters record={record} stage={stage} />}
        </PhotoStage>
      )}
    </div>
  );
};
