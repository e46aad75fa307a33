import { useCallback } from 'react';
import type { ImagePoint } from '../../server/units/points.ts';
import { Canvas, type Draw } from './canvas.tsx';
import { drawPicture } from './draw-picture.ts';
import style from './magnifier.module.css';
import type { Stage } from './photo-stage.tsx';
import type { Picture } from './picture.ts';
import { toFrame } from './view.ts';

/** Side of the glass, CSS px. */
const GLASS = 132;
/** The glass shows at least this many CSS px a photo px, and at least this many times the stage's own scale. */
const LEAST_SCALE = 5;
const TIMES_STAGE = 3;

type Props = {
  readonly picture: Picture;
  readonly stage: Stage;
  readonly at: ImagePoint;
  readonly ring?: number | undefined;
};

const drawCross = (context: CanvasRenderingContext2D, ratio: number, ring: number) => {
  const middle = GLASS / 2;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  for (const [width, colour] of [
    [3, '#0d1713'],
    [1.25, '#fbfaf4'],
  ] as const) {
    context.lineWidth = width;
    context.strokeStyle = colour;
    context.beginPath();
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      context.moveTo(middle + dx * 7, middle + dy * 7);
      context.lineTo(middle + dx * (middle - 6), middle + dy * (middle - 6));
    }
    if (ring > 0) {
      context.moveTo(middle + ring, middle);
      context.arc(middle, middle, ring, 0, 2 * Math.PI);
    }
    context.stroke();
  }
};

/**
 * A glass over the point in hand, in the top corner away from it and so from the thumb. `ring` is a radius in photo px to draw about the
 * point, for a ball.
 */
export const Magnifier = ({ picture, stage, at, ring = 0 }: Props) => {
  const scale = Math.max(LEAST_SCALE, TIMES_STAGE * stage.view.k);
  const draw = useCallback<Draw>(
    (context, ratio) => {
      const view = { k: scale, x: GLASS / 2 - at.x * scale, y: GLASS / 2 - at.y * scale };
      drawPicture(context, picture, view, { width: GLASS, height: GLASS }, ratio);
      drawCross(context, ratio, ring * scale);
    },
    [picture, at, scale, ring],
  );
  const onLeft = toFrame(stage.view, at).left > stage.frame.width / 2;
  return (
    <div className={style.glass} style={onLeft ? { left: 10 } : { right: 10 }}>
      <Canvas className={style.canvas} size={GLASS_SIZE} draw={draw} />
    </div>
  );
};

const GLASS_SIZE = { width: GLASS, height: GLASS };
