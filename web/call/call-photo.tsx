import { useCallback, useMemo } from 'react';
import type { BallColour } from '../../server/lawn/colours.ts';
import { imagePoint } from '../../server/units/points.ts';
import type { PicturedBall } from '../balls/ball-picture.ts';
import { drawHalfway, drawOutlines } from '../perspective/draw-halfway.ts';
import { callBox, outlineAt } from '../perspective/reading-camera.ts';
import { type Overlay, PhotoStage, type Stage } from '../photo/photo-stage.tsx';
import { fetchPhoto, usePicture } from '../photo/use-picture.ts';
import { type Box, toFrame } from '../photo/view.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { spreadDiscs } from '../plan/spread-discs.ts';
import { photoAddress } from '../service/photos.ts';
import style from './call.module.css';
import type { SeenLawn } from './seen-lawn.ts';

/** How far above its ball a letter hangs, and how much room it keeps, CSS px. */
const RISE = 30;
const ROOM = 14;

const Letters = ({ balls, stage }: { balls: readonly PicturedBall[]; stage: Stage }) => {
  const feet = balls.map(({ image }) => toFrame(stage.view, imagePoint(image[0], image[1])));
  const heads = spreadDiscs(
    feet.map(({ left, top }) => ({ x: left, y: top - RISE })),
    ROOM,
  );
  return (
    <>
      <svg className={style.leaders} aria-hidden="true">
        {heads.map(({ x, y }, i) => (
          <path
            key={balls[i]!.colour}
            d={`M${x} ${y}L${feet[i]!.left} ${feet[i]!.top - 5}`}
            stroke="#fbfaf4"
            strokeWidth="1.4"
          />
        ))}
      </svg>
      {heads.map(({ x, y }, i) => (
        <span
          key={balls[i]!.colour}
          className={style.letter}
          style={{ transform: `translate(${x - 13}px, ${y - 13}px)` }}
        >
          <BallDisc colour={balls[i]!.colour} size={26} />
        </span>
      ))}
    </>
  );
};

/** Room above the farthest ball for its letter: this share of the height shown. */
const HEADROOM = 0.2;

const withHeadroom = (box: Box): Box => ({ ...box, top: box.top - HEADROOM * (box.bottom - box.top) });

const placed = (balls: readonly PicturedBall[]) =>
  balls.flatMap(({ x, y }) => (x === undefined || y === undefined ? [] : [{ x, y }]));

/** The photo with the halfway line, its upright plane and the balls' letters. */
export const CallPhoto = ({ lawn, chosen }: { lawn: SeenLawn; chosen: BallColour | null }) => {
  const { photoId, size, camera, court, line, balls } = lawn;
  const state = usePicture(`photo ${photoId}`, () => fetchPhoto(photoAddress(photoId)), size);
  const start = useMemo(
    () => withHeadroom(callBox(camera, court, line, balls)),
    [camera, court, line, balls],
  );
  const overlay = useCallback<Overlay>(
    (context, stage) => {
      if (line) drawHalfway(context, stage, camera, court, line, placed(balls));
      drawOutlines(
        context,
        stage,
        balls.map(({ image, colour }) => ({
          points: outlineAt(camera, imagePoint(image[0], image[1])),
          strong: colour === chosen,
        })),
      );
    },
    [camera, court, line, balls, chosen],
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
          {(stage) => <Letters balls={balls} stage={stage} />}
        </PhotoStage>
      )}
    </div>
  );
};
