import { useCallback, useMemo } from 'react';
import { useSearch } from 'wouter';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { imagePoint } from '../../server/units/points.ts';
import { drawHalfway, drawOutlines } from '../perspective/draw-halfway.ts';
import { callBox, outlineAt, radiusAt } from '../perspective/reading-camera.ts';
import { Magnifier } from '../photo/magnifier.tsx';
import { type Overlay, PhotoStage, type Stage } from '../photo/photo-stage.tsx';
import type { Picture } from '../photo/picture.ts';
import { type FramePoint, toFrame } from '../photo/view.ts';
import { spreadDiscs } from '../plan/spread-discs.ts';
import type { BallPicture, PicturedBall } from './ball-picture.ts';
import { BallTag } from './ball-tag.tsx';
import style from './balls.module.css';
import { BallsPanel } from './balls-panel.tsx';
import { BallsPlan } from './balls-plan.tsx';
import { type Balls, useBalls } from './use-balls.ts';

/** A tag hangs this far below its ball, and tags keep this radius clear of each other, CSS px. */
const TAG_DROP = 44;
const TAG_RADIUS = 22;

const placesOf = (seen: readonly PicturedBall[], { held }: Balls) =>
  seen.map((ball) => ({
    ball,
    at: held?.colour === ball.colour ? held.at : imagePoint(ball.image[0], ball.image[1]),
  }));

/** The balls whose place on the lawn is known. */
const onLawn = (seen: readonly PicturedBall[]) =>
  seen.flatMap(({ x, y }) => (x === undefined || y === undefined ? [] : [{ x, y }]));

type Placed = ReturnType<typeof placesOf>;

const tagsOf = (places: Placed, stage: Stage): FramePoint[] => {
  const wished = places.map(({ at }) => {
    const { left, top } = toFrame(stage.view, at);
    const below = top + TAG_DROP + TAG_RADIUS < stage.frame.height;
    return { x: left, y: top + (below ? TAG_DROP : -TAG_DROP) };
  });
  return spreadDiscs(wished, TAG_RADIUS).map(({ x, y }) => ({ left: x, top: y }));
};

const Tags = ({ places, balls, stage }: { places: Placed; balls: Balls; stage: Stage }) => {
  const tags = tagsOf(places, stage);
  return places.map(({ ball, at }, i) => (
    <BallTag
      key={ball.colour}
      ball={ball}
      at={at}
      stage={stage}
      tag={tags[i]!}
      chosen={balls.chosen === ball.colour}
      onChoose={() => balls.choose(ball.colour)}
      onMove={(point) => balls.move(ball.colour, point)}
      onDrop={(point) => balls.drop(ball.colour, point)}
      onNudge={(point) => balls.nudge(ball.colour, point)}
    />
  ));
};

/** The colour that the address asks to be added, `?add=red`. */
const useAsked = () => {
  const asked = new URLSearchParams(useSearch()).get('add');
  return BALL_COLOURS.find((colour) => colour === asked) ?? null;
};

/** The photo with the balls found on it, the plan beside it where there is room, and the panel under the thumb. */
export const BallsBench = ({ seen, picture }: { seen: BallPicture; picture: Picture }) => {
  const balls = useBalls(seen.record, useAsked());
  const { camera, court, line } = seen;
  const start = useMemo(() => callBox(camera, court, line, seen.balls), [camera, court, line, seen]);
  const places = placesOf(seen.balls, balls);
  const { chosen, placing, held } = balls;
  const overlay = useCallback<Overlay>(
    (context, stage) => {
      if (line) drawHalfway(context, stage, camera, court, line, onLawn(seen.balls));
      const at = (ball: PicturedBall) =>
        held?.colour === ball.colour ? held.at : imagePoint(ball.image[0], ball.image[1]);
      drawOutlines(
        context,
        stage,
        seen.balls.map((ball) => ({ points: outlineAt(camera, at(ball)), strong: ball.colour === chosen })),
      );
    },
    [seen, camera, court, line, held, chosen],
  );
  const glass = held?.at ?? places.find(({ ball }) => ball.colour === chosen)?.at;
  return (
    <div className={style.bench}>
      <h1 className="visually-hidden">The balls</h1>
      <div className={style.stage} data-placing={placing ?? undefined}>
        <PhotoStage
          picture={picture}
          label="The photo with the balls that were found"
          start={start}
          overlay={overlay}
          onTap={placing ? (point) => balls.add(placing, point) : undefined}
        >
          {(stage) => (
            <>
              <Tags places={places} balls={balls} stage={stage} />
              {glass && (
                <Magnifier picture={picture} stage={stage} at={glass} ring={radiusAt(camera, glass)} />
              )}
            </>
          )}
        </PhotoStage>
      </div>
      <BallsPlan seen={seen} chosen={chosen} />
      <BallsPanel
        seen={seen}
        balls={balls}
        middle={imagePoint((start.left + start.right) / 2, (start.top + start.bottom) / 2)}
      />
    </div>
  );
};
