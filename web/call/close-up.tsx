import { useRef } from 'react';
import type { BallCall } from '../../server/contract/reading.ts';
import { useSize } from '../photo/use-size.ts';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import style from './close-up.module.css';
import { sayCall } from './say-call.ts';
import { StripDrawing } from './strip-drawing.tsx';

type Props = {
  readonly call: BallCall;
  /** Where the next hoop lies, for the arrow: "hoop 2, north". */
  readonly next: string;
};

/**
 * The close-up: line and ball from the side, true to scale in mm, with the band in which the ball's nearest point lies 19 times in 20, and
 * the probability in words. It is drawn to its own width, so that its figures keep their size.
 */
export const CloseUp = ({ call, next }: Props) => {
  const frame = useRef<HTMLElement>(null);
  const { width } = useSize(frame);
  const { units } = useSettings();
  const said = sayCall(call, units);
  return (
    <figure ref={frame} className={style.strip} data-lies={call.lies}>
      {width > 0 && (
        <StripDrawing
          call={call}
          width={width}
          next={next}
          label={`${ballName(call.colour)} from the side: ${said.decides}, ${said.figures}.`}
        />
      )}
      <figcaption>
        <b>{said.chance}.</b> From the side, to scale; the band holds the ball's nearest point 19 times in 20.
      </figcaption>
    </figure>
  );
};
