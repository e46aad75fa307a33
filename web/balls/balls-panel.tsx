import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { chance } from '../../server/contract/words/chances.ts';
import { BALL_COLOURS, type BallColour } from '../../server/lawn/colours.ts';
import type { ImagePoint } from '../../server/units/points.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import parts from '../parts/parts.module.css';
import { PANEL_MARK } from '../photo/go-to-panel.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { BackIcon } from '../shell/icons.tsx';
import { ballName, listed } from '../words/balls.ts';
import type { BallPicture, PicturedBall } from './ball-picture.ts';
import style from './balls.module.css';
import type { Balls } from './use-balls.ts';

const faces = (colours: readonly BallColour[]) =>
  colours.map((colour) => ({
    value: colour,
    name: ballName(colour),
    face: <BallDisc colour={colour} size={30} />,
  }));

/** How a ball came to be here, in a sentence. */
const originOf = ({ origin, confidence }: PicturedBall): string => {
  if (origin === 'placed') return 'Placed by hand.';
  return confidence === undefined
    ? 'Found in the photo.'
    : `Found in the photo; the colour is right ${chance(confidence)}.`;
};

/** The chosen ball: how sure its colour is, another colour, away with it. */
const ChosenBall = ({ seen, balls, colour }: { seen: BallPicture; balls: Balls; colour: BallColour }) => {
  const ball = seen.balls.find((one) => one.colour === colour);
  if (!ball) return null;
  const among = seen.record.kind === 'sighting' && seen.balls.length > 1;
  return (
    <div className={style.chosen} {...PANEL_MARK}>
      <p className={style.says}>
        <b>{ballName(colour)}.</b> {originOf(ball)}
        {ball.visible !== undefined && ball.visible < 0.7 && ' Partly hidden, so its place is less sure.'}
      </p>
      <ChoiceTiles
        label="Its colour"
        across={4}
        value={colour}
        onChoose={(to) => balls.recolour(colour, to)}
        options={faces(BALL_COLOURS)}
      />
      <div className={style.tools}>
        <Button variant="default" onClick={() => balls.remove(colour)}>
          This is no ball: take it away
        </Button>
        {among && (
          <Button variant="default" onClick={() => balls.alone(ball)}>
            Judge this ball alone
          </Button>
        )}
        <Button variant="subtle" onClick={() => balls.choose(null)}>
          Done
        </Button>
      </div>
    </div>
  );
};

const found = ({ balls, missing }: BallPicture): string => {
  const count =
    balls.length === 0
      ? 'No ball was found.'
      : balls.length === 1
        ? 'One ball was found.'
        : `${balls.length} balls were found.`;
  if (missing.length === 0) return `${count} Tap one to correct it.`;
  return `${count} Not found: ${listed(missing.map(ballName))}.`;
};

/** Nothing chosen: what was found, what can be added. */
const Overview = ({ seen, balls }: { seen: BallPicture; balls: Balls }) => {
  const asked = seen.record.marks.balls;
  const free = asked.filter((colour) => !seen.balls.some((ball) => ball.colour === colour));
  return (
    <>
      <p className={style.says}>{found(seen)}</p>
      {free.length > 0 && (
        <ChoiceTiles
          label="Add a ball you can see"
          across={4}
          value={null}
          onChoose={(colour) => balls.setPlacing(colour)}
          options={faces(free)}
        />
      )}
    </>
  );
};

/** What is left to do on the balls, under the thumb. */
export const BallsPanel = ({
  seen,
  balls,
  middle,
}: {
  seen: BallPicture;
  balls: Balls;
  middle: ImagePoint;
}) => {
  const { placing, chosen } = balls;
  const { record, onward } = seen;
  if (placing)
    return (
      <section className={style.panel} aria-live="polite">
        <p className={style.says}>
          Now tap the middle of <b>{ballName(placing)}</b> on the photo.
        </p>
        <div className={style.tools}>
          <Button onClick={() => balls.add(placing, middle)}>Put it in the middle</Button>
          <Button variant="subtle" onClick={() => balls.setPlacing(null)}>
            Not now
          </Button>
        </div>
      </section>
    );
  return (
    <section className={style.panel}>
      {balls.trouble && (
        <p role="alert" className={parts.notice}>
          {balls.trouble}
        </p>
      )}
      {chosen ? (
        <ChosenBall seen={seen} balls={balls} colour={chosen} />
      ) : (
        <Overview seen={seen} balls={balls} />
      )}
      <div className={style.onward}>
        <Button
          variant="default"
          leftSection={<BackIcon />}
          disabled={!balls.canUndo || balls.busy}
          onClick={balls.undo}
        >
          Undo
        </Button>
        {record.game && (
          <Button variant="default" component={Link} href={`/games/${record.game}/turn?reading=${record.id}`}>
            To the turn
          </Button>
        )}
        <Button component={Link} href={onward.to}>
          {onward.words}
        </Button>
      </div>
    </section>
  );
};
