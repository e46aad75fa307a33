import { select } from 'd3-selection';
import { type D3ZoomEvent, type ZoomBehavior, zoom, zoomIdentity } from 'd3-zoom';
import { type RefObject, useEffect, useRef, useState } from 'react';
import { type Box, fitBox, type Size, startView, type View, wholePhoto } from './view.ts';

/** Photo px never grow larger than this many CSS px. */
const LARGEST = 40;

/** Moves of the view. */
export type ZoomControl = {
  /** Shows `box` (photo px), with a margin in CSS px. */
  readonly show: (box: Box, margin?: number) => void;
  /** Zooms about the middle of the frame. */
  readonly by: (factor: number) => void;
};

const limits = (photo: Size, frame: Size): [number, number] => {
  const fit = fitBox(wholePhoto(photo), frame).k;
  return [Math.min(fit, LARGEST), LARGEST];
};

/** What a frame showed last. */
type Shown = { readonly view: View; readonly photo: Size; readonly frame: Size };

/** The view of a frame that has changed its size: what was in the middle stays there. Null for another photo. */
const kept = (last: Shown | null, photo: Size, frame: Size): View | null => {
  if (last?.photo !== photo) return null;
  const { view } = last;
  return {
    k: view.k,
    x: view.x + (frame.width - last.frame.width) / 2,
    y: view.y + (frame.height - last.frame.height) / 2,
  };
};

/** Events on pins and buttons are theirs; a secondary button and a wheel with alt are nobody's. */
const isForView = (event: Event): boolean => {
  const target = event.target as Element;
  if (target.closest('[data-own-gesture]')) return false;
  return !(event instanceof MouseEvent && event.button > 0);
};

/**
 * Pan, wheel and pinch on `element` for a photo in a frame; starts with `start` (or the whole photo) filling the frame. The pinch is exact
 * about its centre: d3-zoom keeps the photo's points under the fingers.
 */
export const useZoom = (
  element: RefObject<HTMLElement | null>,
  photo: Size | null,
  frame: Size,
  start: Box | null,
): { view: View; control: ZoomControl } => {
  const [view, setView] = useState<View>({ k: 1, x: 0, y: 0 });
  const behaviour = useRef<ZoomBehavior<HTMLElement, unknown> | null>(null);
  const last = useRef<Shown | null>(null);
  const startBox = useRef(start);
  startBox.current = start;

  const ready = photo !== null && frame.width > 0 && frame.height > 0;
  const shape = ready ? `${photo.width}×${photo.height} in ${frame.width}×${frame.height}` : '';
  // biome-ignore lint/correctness/useExhaustiveDependencies: `shape` stands for photo and frame
  useEffect(() => {
    const node = element.current;
    if (!node || !photo || !shape) return;
    const selection = select<HTMLElement, unknown>(node);
    const slack = 0.45;
    const zooming = zoom<HTMLElement, unknown>()
      .extent([
        [0, 0],
        [frame.width, frame.height],
      ])
      .scaleExtent(limits(photo, frame))
      .translateExtent([
        [-slack * photo.width, -slack * photo.height],
        [(1 + slack) * photo.width, (1 + slack) * photo.height],
      ])
      .filter(isForView)
      .clickDistance(6)
      .tapDistance(10)
      .on('zoom', (event: D3ZoomEvent<HTMLElement, unknown>) => {
        last.current = { view: event.transform, photo, frame };
        setView(event.transform);
      });
    behaviour.current = zooming;
    selection.call(zooming).on('dblclick.zoom', null);
    const { k, x, y } =
      kept(last.current, photo, frame) ?? startView(startBox.current ?? wholePhoto(photo), frame, photo);
    selection.call(zooming.transform, zoomIdentity.translate(x, y).scale(k));
    return () => {
      selection.on('.zoom', null);
      behaviour.current = null;
    };
  }, [element, shape]);

  const frameNow = useRef(frame);
  frameNow.current = frame;
  const control = useRef<ZoomControl>({
    show: (box, margin = 24) => {
      const { k, x, y } = fitBox(box, frameNow.current, margin);
      const node = element.current;
      if (node && behaviour.current)
        select(node).call(behaviour.current.transform, zoomIdentity.translate(x, y).scale(k));
    },
    by: (factor) => {
      const node = element.current;
      if (node && behaviour.current) select(node).call(behaviour.current.scaleBy, factor);
    },
  });
  return { view, control: control.current };
};
