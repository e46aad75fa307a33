import { useCallback, useEffect, useMemo } from 'react';
import type { CheckRecord } from '../../server/contract/record.ts';
import { cameraOf, courtOfMarks, lawnBox } from '../perspective/reading-camera.ts';
import { type Overlay, PhotoStage, type Stage } from '../photo/photo-stage.tsx';
import { fetchPhoto, usePicture } from '../photo/use-picture.ts';
import { type Box, toFrame } from '../photo/view.ts';
import { spreadDiscs } from '../plan/spread-discs.ts';
import { photoAddress } from '../service/photos.ts';
import style from './check-photo.module.css';
import type { CourtPlace } from './court-places.ts';
import { drawPlaces } from './draw-places.ts';
import { boxOfPlace, type SeenPlace, seenPlaces, tagOf } from './seen-places.ts';

/** How far above a thing its length is written, and how much room it keeps, CSS px. */
const RISE = 26;
const ROOM = 36;

/** The lengths, each above its arrow and clear of the others. */
const Tags = ({
  seen,
  stage,
  chosen,
}: {
  seen: readonly SeenPlace[];
  stage: Stage;
  chosen: string | null;
}) => {
  // Too many words would hide the lawn: of what is undecided only the chosen is told.
  const told = seen.filter(
    ({ place }) => tagOf(place) !== null && (place.within === false || place.name === chosen),
  );
  const spots = spreadDiscs(
    told.map(({ proper }) => {
      const { left, top } = toFrame(stage.view, proper);
      return { x: left, y: top - RISE };
    }),
    ROOM,
  );
  return told.map(({ place }, i) => (
    <span
      key={place.name}
      className={style.tag}
      data-chosen={place.name === chosen || undefined}
      style={{ transform: `translate(${spots[i]!.x}px, ${spots[i]!.y}px) translate(-50%, -50%)` }}
    >
      {tagOf(place)}
    </span>
  ));
};

/** Brings the chosen thing into view whenever another one is chosen. */
const Follow = ({ stage, box }: { stage: Stage; box: ReturnType<typeof boxOfPlace> }) => {
  const { control } = stage;
  useEffect(() => {
    if (box) control.show(box);
  }, [control, box]);
  return null;
};

/** A check that was kept with its camera. */
export type SeenCheck = CheckRecord & {
  readonly camera: NonNullable<CheckRecord['camera']>;
  readonly photo: NonNullable<CheckRecord['photo']>;
};

/** Room below the near boundary for the stage's buttons: this share of the height shown. */
const FOOTROOM = 0.18;

const withFootroom = (box: Box): Box => ({
  ...box,
  bottom: box.bottom + FOOTROOM * (box.bottom - box.top),
});

type Props = {
  readonly record: SeenCheck;
  readonly places: readonly CourtPlace[];
  readonly chosen: CourtPlace | null;
};

/** The photo of a court check with everything drawn where it should stand and where it was found. */
export const CheckPhoto = ({ record, places, chosen }: Props) => {
  const { photoId } = record;
  const camera = useMemo(() => cameraOf(record), [record]);
  const seen = useMemo(() => seenPlaces(camera, places), [camera, places]);
  const start = useMemo(
    () => withFootroom(lawnBox(camera, courtOfMarks(record.marks.lawn))),
    [camera, record],
  );
  const box = useMemo(() => chosen && boxOfPlace(camera, chosen), [camera, chosen]);
  const state = usePicture(`photo ${photoId}`, () => fetchPhoto(photoAddress(photoId)), camera);
  const name = chosen?.name ?? null;
  const overlay = useCallback<Overlay>(
    (context, stage) => drawPlaces(context, stage, seen, name),
    [seen, name],
  );
  if (state.state === 'failed') return <p>{state.message}</p>;
  return (
    <div className={style.photo}>
      {state.state === 'open' && (
        <PhotoStage
          picture={state.picture}
          label="The photo with what is off drawn on it: rings where things belong, arrows from where they stand"
          start={box ?? start}
          overlay={overlay}
        >
          {(stage) => (
            <>
              <Tags seen={seen} stage={stage} chosen={name} />
              <Follow stage={stage} box={box} />
            </>
          )}
        </PhotoStage>
      )}
    </div>
  );
};
