import { type ReactNode, useCallback, useMemo, useRef } from 'react';
import type { ImagePoint } from '../../server/units/points.ts';
import { Canvas, type Draw } from './canvas.tsx';
import { drawPicture } from './draw-picture.ts';
import style from './photo-stage.module.css';
import type { Picture } from './picture.ts';
import { StageButtons } from './stage-buttons.tsx';
import { useSize } from './use-size.ts';
import { useZoom, type ZoomControl } from './use-zoom.ts';
import { type Box, type Size, toPhoto, type View, wholePhoto } from './view.ts';

/** What lies over the photo gets the view, the frame and the control of both. */
export type Stage = { readonly view: View; readonly frame: Size; readonly control: ZoomControl };

/** Draws lines over the photo; the context is in CSS px. */
export type Overlay = (context: CanvasRenderingContext2D, stage: Stage) => void;

type Props = {
  readonly picture: Picture;
  /** What the photo shows, for those who do not see it. */
  readonly label: string;
  /** What the stage shows at first, photo px; the whole photo when null. */
  readonly start?: Box | null;
  readonly overlay?: Overlay | undefined;
  /** A tap or click on the photo itself. */
  readonly onTap?: ((point: ImagePoint) => void) | undefined;
  readonly children?: (stage: Stage) => ReactNode;
};

const useDraw = (
  picture: Picture,
  stage: Stage,
  overlay: Overlay | undefined,
): { photo: Draw; over: Draw } => {
  const { view, frame } = stage;
  const photo = useCallback<Draw>(
    (context, ratio) => drawPicture(context, picture, view, frame, ratio),
    [picture, view, frame],
  );
  const over = useCallback<Draw>(
    (context, ratio) => {
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      context.clearRect(0, 0, frame.width, frame.height);
      overlay?.(context, stage);
    },
    [overlay, frame, stage],
  );
  return { photo, over };
};

/** The photo in a frame that can be panned, pinched and zoomed, with room for pins and drawings over it. */
export const PhotoStage = ({ picture, label, start = null, overlay, onTap, children }: Props) => {
  const element = useRef<HTMLDivElement>(null);
  const frame = useSize(element);
  const { view, control } = useZoom(element, picture, frame, start);
  const stage = useMemo(() => ({ view, frame, control }), [view, frame, control]);
  const draw = useDraw(picture, stage, overlay);
  const tap = (event: React.MouseEvent) => {
    if (!onTap || (event.target as Element).closest('[data-own-gesture]')) return;
    const box = element.current!.getBoundingClientRect();
    onTap(toPhoto(view, { left: event.clientX - box.left, top: event.clientY - box.top }));
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: by keyboard, pins come from the map of the lawn and move with the arrows
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would not describe a picture with pins on it
    <div ref={element} className={style.stage} role="group" aria-label={label} onClick={tap} data-stage>
      <Canvas className={style.layer} size={frame} draw={draw.photo} />
      <Canvas className={style.layer} size={frame} draw={draw.over} />
      {frame.width > 0 && children?.(stage)}
      <StageButtons onBy={control.by} onWhole={() => control.show(wholePhoto(picture), 0)} />
    </div>
  );
};
