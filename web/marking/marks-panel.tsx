import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { pointName, shortPointName, whereToPut } from '../../server/contract/words/places.ts';
import { CORNER_NAMES, type CornerName } from '../../server/lawn/named-points.ts';
import { imagePoint } from '../../server/units/points.ts';
import type { Draft } from '../draft/draft.ts';
import { PANEL_MARK } from '../photo/go-to-panel.ts';
import type { Picture } from '../photo/picture.ts';
import { BackIcon } from '../shell/icons.tsx';
import style from './marking.module.css';
import { stillMissing } from './needed-points.ts';
import { OrderNote } from './order-note.tsx';
import { onlyCorners, turnNumbers } from './pin-order.ts';
import { PointsDrawer } from './points-drawer.tsx';
import { ReadingPanel } from './reading-panel.tsx';
import type { Marking } from './use-marking.ts';
import type { useTrace } from './use-trace.ts';
import { onwardPath } from './way-of.ts';

type Props = {
  readonly draft: Draft;
  readonly marking: Marking;
  readonly tracing: ReturnType<typeof useTrace>;
  readonly picture: Picture;
};

const STARTS = {
  spot: 'The pins are where the last picture from this spot had them. Check each through the glass.',
  lines:
    'The pins are where the white lines seem to meet. Check each through the glass, and that corner 1 is the south-west one.',
  nowhere: 'Drag each pin by its grip to its corner, where the inner edges of the lines meet.',
} as const;

const guidance = ({ pinsFrom, kind }: Draft): string => {
  if (pinsFrom)
    return kind === 'sighting' && pinsFrom === 'nowhere'
      ? 'Drag the two pins to the feet of the marks at the ends of the line.'
      : STARTS[pinsFrom];
  return 'Tap a pin to see it through the glass; arrow keys move it by a pixel.';
};

/** The pin in hand: what it is, where it belongs, what can be done with it. */
const ChosenPin = ({ draft, marking, tracing }: Omit<Props, 'picture'>) => {
  const name = marking.chosen;
  if (!name || !draft.pins[name]) return <p className={style.guide}>{guidance(draft)}</p>;
  const corner = CORNER_NAMES.includes(name as CornerName);
  const canPull = corner && draft.photoId !== null && CORNER_NAMES.every((one) => draft.pins[one]);
  return (
    <div className={style.chosen} {...PANEL_MARK}>
      <p>
        <b>{pointName(name)}.</b> {whereToPut(name)}
      </p>
      <div className={style.choices}>
        {corner && (
          <Button
            variant="default"
            loading={tracing.busy}
            disabled={!canPull}
            onClick={() => tracing.pull([name as CornerName])}
          >
            Pull {shortPointName(name)} to the lines
          </Button>
        )}
        <Button variant="subtle" onClick={() => marking.remove(name)}>
          Take it out
        </Button>
      </div>
    </div>
  );
};

const Tools = ({ draft, marking, tracing, onMap }: Omit<Props, 'picture'> & { onMap: () => void }) => {
  const corners = CORNER_NAMES.filter((name) => draft.pins[name]);
  return (
    <div className={style.tools}>
      <Button
        variant="default"
        leftSection={<BackIcon />}
        disabled={draft.past.length === 0}
        onClick={marking.undo}
      >
        Undo
      </Button>
      <Button variant="default" onClick={onMap}>
        Another point
      </Button>
      {corners.length === 4 && draft.photoId && !marking.chosen && (
        <Button variant="default" loading={tracing.busy} onClick={() => tracing.pull(corners)}>
          Pull all four to the lines
        </Button>
      )}
      {onlyCorners(draft.pins) && !marking.chosen && (
        <Button variant="subtle" onClick={() => marking.setPins(turnNumbers(draft.pins))}>
          Turn the numbers
        </Button>
      )}
    </div>
  );
};

/** What is left to do on the marks, under the thumb. */
export const MarksPanel = ({ draft, marking, tracing, picture }: Props) => {
  const [map, setMap] = useState(false);
  const missing = stillMissing(draft);
  if (draft.state === 'waiting') return <ReadingPanel draft={draft} />;
  if (marking.placing)
    return (
      <section className={style.panel} aria-live="polite">
        <p>
          Now tap <b>{shortPointName(marking.placing)}</b> on the photo.
        </p>
        <div className={style.choices}>
          <Button onClick={() => marking.place(imagePoint(picture.width / 2, picture.height / 2))}>
            Put it in the middle
          </Button>
          <Button variant="subtle" onClick={() => marking.setPlacing(null)}>
            Not now
          </Button>
        </div>
      </section>
    );
  return (
    <section className={style.panel}>
      {draft.trouble && (
        <p role="alert" className={style.refusal}>
          {draft.trouble}
        </p>
      )}
      <OrderNote pins={draft.pins} onPins={marking.setPins} />
      <ChosenPin draft={draft} marking={marking} tracing={tracing} />
      {tracing.message && <p aria-live="polite">{tracing.message}</p>}
      <Tools draft={draft} marking={marking} tracing={tracing} onMap={() => setMap(true)} />
      {missing && <p className={style.missing}>{missing}</p>}
      {draft.state === 'read' ? (
        <Button size="lg" component={Link} href={onwardPath(draft)}>
          {draft.kind === 'lawn' ? 'On to the balls' : 'On to the answer'}
        </Button>
      ) : (
        <Button size="lg" disabled={missing !== null} onClick={marking.read}>
          Read this photo
        </Button>
      )}
      <PointsDrawer
        opened={map}
        onClose={() => setMap(false)}
        pins={draft.pins}
        onPick={(name) => {
          setMap(false);
          if (draft.pins[name]) marking.choose(name);
          else marking.setPlacing(name);
        }}
      />
    </section>
  );
};
