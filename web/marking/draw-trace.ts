import type { Trace } from '../../server/contract/photo.ts';
import type { Overlay } from '../photo/photo-stage.tsx';
import { toFrame } from '../photo/view.ts';
import { pinPoint } from './pin.tsx';

/** Dots along the traced boundary, ringed dark so that they show on paint and grass. */
export const drawTrace =
  (trace: Trace | null): Overlay =>
  (context, { view }) => {
    if (!trace) return;
    for (const side of Object.values(trace.sides)) {
      for (const point of side.points) {
        const { left, top } = toFrame(view, pinPoint(point));
        context.beginPath();
        context.arc(left, top, 2.6, 0, 2 * Math.PI);
        context.fillStyle = '#c9a6ff';
        context.strokeStyle = '#2a1650';
        context.lineWidth = 1.2;
        context.fill();
        context.stroke();
      }
    }
  };
