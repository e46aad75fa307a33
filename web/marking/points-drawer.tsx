import { Drawer } from '@mantine/core';
import { pointName, pointTag } from '../../server/contract/words/places.ts';
import { STANDARD_COURT as COURT } from '../../server/lawn/court.ts';
import { namedPlace, POINT_NAMES, type PointName } from '../../server/lawn/named-points.ts';
import type { Pins } from '../draft/draft.ts';
import { LawnGround } from '../plan/lawn-ground.tsx';
import style from './points-drawer.module.css';

/** Metres around the court on this map, so that the points on the boundary keep their full targets. */
const MARGIN = 1.6;

const share = (name: PointName) => {
  const { x, y } = namedPlace(COURT, name);
  return {
    left: `${(100 * (x + MARGIN)) / (COURT.width + 2 * MARGIN)}%`,
    top: `${(100 * (COURT.length - y + MARGIN)) / (COURT.length + 2 * MARGIN)}%`,
  };
};

type Props = {
  readonly opened: boolean;
  readonly onClose: () => void;
  readonly pins: Pins;
  readonly onPick: (name: PointName) => void;
};

/** The map of the lawn with every point that can be pinned: tap one here, then on the photo. */
export const PointsDrawer = ({ opened, onClose, pins, onPick }: Props) => (
  <Drawer
    opened={opened}
    onClose={onClose}
    position="bottom"
    size="min(94dvh, 640px)"
    title="Which point?"
    padding="xs"
  >
    <p className={style.hint}>
      Tap a point of the lawn here, then the same point on the photo. Filled ones have a pin.
    </p>
    <div className={style.map}>
      <svg
        viewBox={`${-MARGIN} ${-MARGIN} ${COURT.width + 2 * MARGIN} ${COURT.length + 2 * MARGIN}`}
        aria-hidden="true"
        className={style.ground}
      >
        <LawnGround court={COURT} bare />
      </svg>
      {POINT_NAMES.map((name) => (
        <button
          key={name}
          type="button"
          className={style.point}
          style={share(name)}
          data-pinned={pins[name] ? true : undefined}
          aria-label={`${pointName(name)}${pins[name] ? ', has a pin' : ''}`}
          onClick={() => onPick(name)}
        >
          <span>{pointTag(name)}</span>
        </button>
      ))}
    </div>
  </Drawer>
);
