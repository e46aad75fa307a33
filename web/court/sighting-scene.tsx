import type { SightingRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { down } from '../plan/lawn-ground.tsx';
import { LawnPlan } from '../plan/lawn-plan.tsx';

/** The plan of a sighting: the line, where the phone was, the balls where their place along the line is known. */
export const SightingScene = ({ record, chosen }: { record: SightingRecord; chosen: BallColour | null }) => {
  const court = courtOfMarks(record.marks.lawn);
  const eye = record.camera?.position;
  const balls = record.balls.flatMap(({ colour, x, y }) =>
    x === undefined || y === undefined ? [] : [{ colour, x, y }],
  );
  // The phone may have been farther out than the plan reaches: it is drawn at the plan's edge then.
  const reach = 0.75;
  const place = eye && {
    x: Math.min(court.width + reach, Math.max(-reach, eye[0])),
    y: down(court, Math.min(court.length + reach, Math.max(-reach, eye[1]))),
  };
  return (
    <LawnPlan
      court={court}
      label={`Plan of the lawn: ${record.sentence}`}
      line={record.line}
      balls={balls}
      chosen={chosen}
    >
      {place && (
        <g>
          <rect
            x={place.x - 0.55}
            y={place.y - 0.4}
            width="1.1"
            height=".8"
            rx=".15"
            fill="var(--deep)"
            stroke="var(--chalk)"
            strokeWidth=".12"
          />
          <circle cx={place.x} cy={place.y} r=".24" fill="var(--chalk)" />
        </g>
      )}
    </LawnPlan>
  );
};
