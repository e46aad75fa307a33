import { Button } from '@mantine/core';
import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { type DraftStart, draftFromFile, PhotoRefused } from '../draft/new-draft.ts';
import { lastFacts } from '../marking/last-facts.ts';
import parts from '../parts/parts.module.css';
import style from './home.module.css';

type Props = {
  readonly start?: DraftStart;
  readonly takeLabel?: string;
};

/** Opens the camera or the files of this device, keeps the photo, and goes on with it. */
export const TakePhoto = ({ start = {}, takeLabel = 'Take a picture' }: Props) => {
  const camera = useRef<HTMLInputElement>(null);
  const files = useRef<HTMLInputElement>(null);
  const [busy, setBusy] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);
  const [, go] = useLocation();
  const take = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    input.value = '';
    if (!file) return;
    setBusy(true);
    setRefusal(null);
    try {
      const { balls, ...facts } = lastFacts();
      const draft = await draftFromFile(file, balls, { ...facts, ...start });
      go(`/photo/${draft.id}`);
    } catch (error) {
      setRefusal(
        error instanceof PhotoRefused ? error.message : 'The photo could not be kept here. Choose it again.',
      );
    } finally {
      setBusy(false);
    }
  };
  return (
    <div className={style.take}>
      <input
        ref={camera}
        type="file"
        accept="image/*"
        capture="environment"
        hidden
        aria-label="Photo from the camera"
        onChange={(event) => take(event.currentTarget)}
      />
      <input
        ref={files}
        type="file"
        accept="image/*,.heic,.heif"
        hidden
        aria-label="Photo from the files"
        data-photo-file
        onChange={(event) => take(event.currentTarget)}
      />
      <Button fullWidth size="lg" loading={busy} onClick={() => camera.current?.click()}>
        {takeLabel}
      </Button>
      <Button fullWidth size="lg" variant="default" loading={busy} onClick={() => files.current?.click()}>
        Choose a picture
      </Button>
      {refusal && (
        <p role="alert" className={parts.notice}>
          {refusal}
        </p>
      )}
    </div>
  );
};
