import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Sample } from '../../server/contract/photo.ts';
import parts from '../parts/parts.module.css';
import { listSamples } from '../service/photos.ts';
import { sentenceOf } from '../service/request.ts';
import style from './home.module.css';
import { startSample } from './start-sample.ts';

const Card = ({ sample }: { sample: Sample }) => {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [, go] = useLocation();
  const start = async () => {
    setBusy(true);
    setTrouble(null);
    try {
      go(`/marks/${await startSample(sample)}`);
    } catch (error) {
      setTrouble(sentenceOf(error));
      setBusy(false);
    }
  };
  return (
    <div className={style.sample}>
      <img src={sample.photo} alt="" loading="lazy" />
      <div>
        <h3>{sample.title}</h3>
        <Button onClick={start} loading={busy}>
          Make the call on this lawn
        </Button>
        {trouble && (
          <p role="alert" className={parts.notice}>
            {trouble}
          </p>
        )}
      </div>
    </div>
  );
};

/** Sample lawns, already marked: one tap to a call. */
export const SampleLawns = () => {
  const { data = [] } = useQuery({
    queryKey: ['samples'],
    queryFn: listSamples,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const lawns = data.filter(({ kind }) => kind === 'lawn');
  const [all, setAll] = useState(false);
  if (lawns.length === 0) return null;
  return (
    <section className={style.section}>
      <h2>Try it on a sample lawn</h2>
      {lawns.slice(0, all ? undefined : 1).map((sample) => (
        <Card key={sample.name} sample={sample} />
      ))}
      {!all && lawns.length > 1 && (
        <Button variant="subtle" onClick={() => setAll(true)}>
          More sample lawns
        </Button>
      )}
    </section>
  );
};
