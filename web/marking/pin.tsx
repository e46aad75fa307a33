import { pointName, pointTag } from '../../server/contract/words/places.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import { type ImagePoint, imagePoint } from '../../server/units/points.ts';
import { goToPanel } from '../photo/go-to-panel.ts';
import type { Stage } from '../photo/photo-stage.tsx';
import { nudged, useDrag } from '../photo/use-drag.ts';
import { type FramePoint, insidePhoto, type Size, toFrame } from '../photo/view.ts';
import style from './pin.module.css';

type Props = {
  readonly name: PointName;
  readonly at: ImagePoint;
  readonly photo: Size;
  readonly stage: Stage;
  readonly chosen: boolean;
  /** How far off the solved camera sees this point, in words; null before a reading. */
  readonly off: string | null;
  readonly onChoose: () => void;
  readonly onMove: (point: ImagePoint) => void;
  readonly onDrop: (point: ImagePoint) => void;
};

/** Room that the grip needs below its point, CSS px; with less it hangs above. */
const ROOM_BELOW = 92;
/** Room that the stage's own buttons take in the right bottom corner, CSS px. */
const BUTTONS = { width: 168, height: 60 };
/** Half the width of a grip with what is written under it, CSS px. */
const HALF_GRIP = 32;

/** Whether the grip hangs above its point: there is no room below, or the stage's buttons are there. */
const hangsAbove = ({ left, top }: FramePoint, { width, height }: Size): boolean => {
  const room = left > width - BUTTONS.width ? ROOM_BELOW + BUTTONS.height : ROOM_BELOW;
  return top > height - room;
};

/** How far the grip stands aside of its point, so that all of it stays in the frame while its point does. */
const asideOf = (left: number, { width }: Size): number =>
  left < 0 || left > width ? 0 : Math.min(width - HALF_GRIP, Math.max(HALF_GRIP, left)) - left;

/** Brings the pin into view: at 40 % of the frame's smaller side around it when it lies outside. */
const reveal = (stage: Stage, at: ImagePoint) => {
  const { left, top } = toFrame(stage.view, at);
  const { width, height } = stage.frame;
  if (left > 20 && top > 20 && left < width - 20 && top < height - 60) return;
  const half = Math.min(width, height) / stage.view.k / 2;
  stage.control.show({ left: at.x - half, right: at.x + half, top: at.y - half, bottom: at.y + half });
};

/**
 * A pin at a point of the photo. Its grip hangs below the point, so the thumb never covers what it aims at; arrows move it by 1 px, with
 * Shift 10, with Alt 0.1.
 */
export const Pin = ({ name, at, photo, stage, chosen, off, onChoose, onMove, onDrop }: Props) => {
  const { left, top } = toFrame(stage.view, at);
  const { dragging, handlers } = useDrag({
    at,
    k: stage.view.k,
    onMove: (point) => onMove(insidePhoto(point, photo)),
    onDrop: (point, moved) => moved && onDrop(insidePhoto(point, photo)),
  });
  const onKeyDown = (event: React.KeyboardEvent) => {
    const moved = nudged(at, event);
    if (!moved) return;
    event.preventDefault();
    onDrop(insidePhoto(moved, photo));
  };
  const above = hangsAbove({ left, top }, stage.frame);
  const aside = asideOf(left, stage.frame);
  return (
    <div
      className={style.pin}
      style={{ transform: `translate(${left}px, ${top}px)` }}
      data-chosen={chosen || undefined}
    >
      <svg className={style.aim} viewBox="-14 -14 28 28" aria-hidden="true">
        <path className={style.under} d="M-13 0H-4M4 0H13M0-13V-4M0 4V13" />
        <path className={style.over} d="M-13 0H-4M4 0H13M0-13V-4M0 4V13" />
      </svg>
      <span className={style.stem} data-above={above || undefined} />
      <button
        type="button"
        className={style.grip}
        style={{ marginLeft: aside }}
        data-own-gesture
        data-above={above || undefined}
        data-dragging={dragging || undefined}
        data-pin={name}
        aria-label={`${pointName(name)}: ${at.x.toFixed(1)} across, ${at.y.toFixed(1)} down`}
        aria-pressed={chosen}
        aria-description="Arrow keys move it by one pixel, with Shift by ten, with Alt by a tenth. Enter goes to what can be done with it."
        onFocus={() => {
          onChoose();
          reveal(stage, at);
        }}
        onClick={(event) => {
          onChoose();
          goToPanel(event);
        }}
        onKeyDown={onKeyDown}
        {...handlers}
      >
        {pointTag(name)}
        {off && <span className={style.off}>{off}</span>}
      </button>
    </div>
  );
};

/** The point of a pin. */
export const pinPoint = ([x, y]: readonly [number, number]): ImagePoint => imagePoint(x, y);
