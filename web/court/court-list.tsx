import parts from '../parts/parts.module.css';
import { EyeIcon } from '../shell/icons.tsx';
import style from './check.module.css';
import { type CourtPlace, howToMove, STANDINGS, type Standing, sizeOf, standingOf } from './court-places.ts';

const HEADINGS: Readonly<Record<Standing, string>> = {
  off: 'To be moved',
  unsure: 'Too close to say',
  unseen: 'Not seen',
  fine: 'In their places',
};

const mm = (metres: number): string => String(Math.round(metres * 1000));

const Sentence = ({ place, standing }: { place: CourtPlace; standing: Standing }) => {
  const { off, words } = place;
  if (!off)
    return (
      <>
        <b>{words}</b> was not seen. It may be missing, or something stood before it: look for it, or pin it
        on the photo.
      </>
    );
  const size = `${mm(sizeOf(off))} mm off, give or take ${mm(off.give)} mm`;
  if (standing === 'off')
    return (
      <>
        <b>
          {words}: move it {howToMove(off)}.
        </b>{' '}
        It is {size}.
      </>
    );
  if (standing === 'unsure')
    return (
      <>
        <b>{words}</b> is {size}. If you move it, {howToMove(off)}.
      </>
    );
  return (
    <>
      <b>{words}</b>: {size}
    </>
  );
};

type Props = {
  readonly places: readonly CourtPlace[];
  /** Shows a thing in the photo; null when there is none to show it in. */
  readonly onShow: ((place: CourtPlace) => void) | null;
};

/** The list to walk the court with: first what is to be moved, last what stands in its place. */
export const CourtList = ({ places, onShow }: Props) => (
  <>
    {STANDINGS.map((standing) => {
      const these = places.filter((place) => standingOf(place) === standing);
      if (these.length === 0) return null;
      return (
        <section key={standing} className={parts.group}>
          <h2>
            {HEADINGS[standing]} <span className="soft">{these.length}</span>
          </h2>
          <ul className={`${parts.rows} ${style.list}`} data-standing={standing}>
            {these.map((place) => (
              <li key={place.name}>
                <p className={style.words}>
                  <Sentence place={place} standing={standing} />
                </p>
                {onShow && (
                  <button
                    type="button"
                    className={`${style.show} no-print`}
                    aria-label={`Show ${place.words} in the photo`}
                    onClick={() => onShow(place)}
                  >
                    <EyeIcon />
                  </button>
                )}
              </li>
            ))}
          </ul>
        </section>
      );
    })}
  </>
);
