import style from './court.module.css';
import { type CourtPlace, howToMove } from './court-places.ts';

const sentence = ({ off, within }: CourtPlace): string => {
  if (!off) return 'was not seen.';
  const size = `${Math.round(Math.hypot(off.dx, off.dy) * 1000)} mm off, give or take ${Math.round(off.give * 1000)}`;
  if (within === false) return `${size}: move it ${howToMove(off)}.`;
  if (within === null) return `${size}: too close to say. If you move it, ${howToMove(off)}.`;
  return `in its place (${size}).`;
};

/** Form before colour: what is off has a solid mark, undecided a dotted one, in place a small one. */
const markOf = ({ off, within }: CourtPlace): string =>
  !off ? 'unseen' : within === false ? 'off' : within === null ? 'unsure' : 'fine';

/** The list to walk the court with. */
export const CourtList = ({ places }: { places: readonly CourtPlace[] }) => (
  <ul className={style.list}>
    {places.map((place) => (
      <li key={place.name} data-mark={markOf(place)}>
        <b>{place.words}</b> {sentence(place)}
      </li>
    ))}
  </ul>
);
