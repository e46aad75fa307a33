import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { PointName } from '../../server/lawn/named-points.ts';
import type { Draft } from '../draft/draft.ts';
import { Magnifier } from '../photo/magnifier.tsx';
import { PhotoStage } from '../photo/photo-stage.tsx';
import type { Picture } from '../photo/picture.ts';
import { insidePhoto } from '../photo/view.ts';
import { getReading } from '../service/readings.ts';
import { drawTrace } from './draw-trace.ts';
import style from './marking.module.css';
import { MarksPanel } from './marks-panel.tsx';
import { Pin, pinPoint } from './pin.tsx';
import { useMarking } from './use-marking.ts';
import { useTrace } from './use-trace.ts';

/** How far off each mark the solved camera sees its point, once the marks as they are have been read. */
const useResiduals = ({ state, readingId }: Draft): ReadonlyMap<string, string> => {
  const asked = state === 'read' && readingId !== null;
  const { data } = useQuery({
    queryKey: ['reading', readingId],
    queryFn: () => getReading(readingId!),
    enabled: asked,
  });
  return useMemo(() => {
    const marks = asked && data?.kind === 'lawn' ? data.camera.marks : [];
    return new Map(
      marks.map(({ name, residual, onLawn }) => [
        name,
        onLawn === null ? `${residual.toFixed(1)} px` : `${Math.round(onLawn * 1000)} mm`,
      ]),
    );
  }, [asked, data]);
};

/** The photo with its pins, and the panel under the thumb. */
export const MarksBench = ({ draft, picture }: { draft: Draft; picture: Picture }) => {
  const marking = useMarking(draft);
  const tracing = useTrace(draft, marking.setPins);
  const residuals = useResiduals(draft);
  const overlay = useMemo(() => drawTrace(tracing.trace), [tracing.trace]);
  const { held, chosen, placing } = marking;
  const pins = Object.entries(draft.pins) as [PointName, readonly [number, number]][];
  const chosenPair = chosen && draft.pins[chosen];
  const inHand = held ?? (chosen && chosenPair ? { name: chosen, at: pinPoint(chosenPair) } : null);
  return (
    <div className={style.bench}>
      <h1 className="visually-hidden">The marks</h1>
      <div className={style.stage} data-placing={placing ?? undefined}>
        <PhotoStage
          picture={picture}
          label="The photo with its pins"
          overlay={overlay}
          onTap={placing ? (point) => marking.place(insidePhoto(point, picture)) : undefined}
        >
          {(stage) => (
            <>
              {pins.map(([name, pair]) => (
                <Pin
                  key={name}
                  name={name}
                  at={held?.name === name ? held.at : pinPoint(pair)}
                  photo={picture}
                  stage={stage}
                  chosen={chosen === name}
                  off={residuals.get(name) ?? null}
                  onChoose={() => marking.choose(name)}
                  onMove={(point) => marking.move(name, point)}
                  onDrop={(point) => marking.drop(name, point)}
                />
              ))}
              {inHand && <Magnifier picture={picture} stage={stage} at={inHand.at} />}
            </>
          )}
        </PhotoStage>
      </div>
      <MarksPanel draft={draft} marking={marking} tracing={tracing} picture={picture} />
    </div>
  );
};
