import type { ImagePoint } from '../../server/units/points.ts';
import { goToPanel } from '../photo/go-to-panel.ts';
import type { Stage } from '../photo/photo-stage.tsx';
import { nudged, useDrag } from '../photo/use-drag.ts';
import { type FramePoint, toFrame } from '../photo/view.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import type { PicturedBall } from './ball-picture.ts';
import style from './balls.module.css';

type Props = {
  readonly ball: PicturedBall;
  readonly at: ImagePoint;
  readonly stage: Stage;
  /** Where the tag's middle is drawn, frame px: near its ball, clear of the other tags. */
  readonly tag: FramePoint;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly onMove: (at: ImagePoint) => void;
  readonly onDrop: (at: ImagePoint) => void;
  readonly onNudge: (at: ImagePoint) => void;
};

/** A ball's tag on the photo: its letter, tied to the ball it names; dragging the tag drags the ball. */
export const BallTag = ({ ball, at, stage, tag, chosen, onChoose, onMove, onDrop, onNudge }: Props) => {
  const { left, top } = toFrame(stage.view, at);
  const { handlers } = useDrag({
    at,
    k: stage.view.k,
    onMove,
    onDrop: (point, moved) => moved && onDrop(point),
  });
  return (
    <>
      <svg className={style.leader} aria-hidden="true">
        <path d={`M${left} ${top}L${tag.left} ${tag.top}`} stroke="#101914" strokeWidth="3.5" />
        <path d={`M${left} ${top}L${tag.left} ${tag.top}`} stroke="#fbfaf4" strokeWidth="1.5" />
      </svg>
      <button
        type="button"
        className={style.tag}
        style={{ transform: `translate(${tag.left - 23}px, ${tag.top - 23}px)` }}
        data-own-gesture
        data-ball={ball.colour}
        data-chosen={chosen || undefined}
        aria-pressed={chosen}
        aria-label={`${ballName(ball.colour)}, ${ball.origin === 'placed' ? 'placed by hand' : 'found'}`}
        aria-description="Arrow keys move it by one pixel, with Shift by ten, with Alt by a tenth. Enter goes to what can be done with it."
        onClick={(event) => {
          onChoose();
          goToPanel(event);
        }}
        onFocus={onChoose}
        onKeyDown={(event) => {
          const moved = nudged(at, event);
          if (!moved) return;
          event.preventDefault();
          onNudge(moved);
        }}
        {...handlers}
      >
        <BallDisc colour={ball.colour} size={40} />
      </button>
    </>
  );
};
