import { Button } from '@mantine/core';
import type { Pins } from '../draft/draft.ts';
import style from './marking.module.css';
import { pinOrder, putInOrder } from './pin-order.ts';

/** Says when the corners lie in the wrong order, with the tap that puts them right. */
export const OrderNote = ({ pins, onPins }: { pins: Pins; onPins: (pins: Pins) => void }) => {
  const order = pinOrder(pins);
  if (order === 'fine') return null;
  return (
    <div role="alert" className={style.refusal}>
      <p>
        {order === 'mirrored'
          ? 'The corners run the wrong way round, as in a mirror: 1, 2, 3, 4 go clockwise.'
          : 'The corners cross over: joined in order they do not go round the lawn.'}
      </p>
      <Button onClick={() => onPins(putInOrder(pins))}>Put them in order</Button>
    </div>
  );
};
