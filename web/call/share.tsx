import { Button, Switch } from '@mantine/core';
import { useState } from 'react';
import { cardAddress } from '../service/readings.ts';
import style from './call.module.css';

const textOf = async (id: string): Promise<string> => {
  const response = await fetch(cardAddress(id, 'card.txt', false));
  if (!response.ok) throw new Error(`Expected the card's text but received status ${response.status}`);
  return response.text();
};

/** Puts text on the clipboard; where a plain-http address forbids it, by the old way of a selected field. */
const copy = async (text: string): Promise<void> => {
  if (navigator.clipboard) return navigator.clipboard.writeText(text);
  const field = document.createElement('textarea');
  field.value = text;
  document.body.append(field);
  field.select();
  document.execCommand('copy');
  field.remove();
};

const sendOn = async (id: string, withPhoto: boolean): Promise<boolean> => {
  const picture = await (await fetch(cardAddress(id, 'card.png', withPhoto))).blob();
  const file = new File([picture], 'sward-call.png', { type: 'image/png' });
  if (!navigator.canShare?.({ files: [file] })) return false;
  await navigator.share({ files: [file], title: 'The call' });
  return true;
};

/** The call to hand on: as a picture, a printed card, text, a link. The photo, and the people on it, can be left out. */
export const Share = ({ id }: { id: string }) => {
  const [withPhoto, setWithPhoto] = useState(true);
  const [told, setTold] = useState<string | null>(null);
  const tell = (work: Promise<unknown>, said: string) =>
    work.then(
      () => setTold(said),
      () => setTold('That did not work here. Try another way.'),
    );
  return (
    <section className={`${style.share} no-print`}>
      <h2>Hand it on</h2>
      <Switch
        label="With the photo and the people on it"
        checked={withPhoto}
        onChange={(event) => setWithPhoto(event.currentTarget.checked)}
      />
      <div className={style.shareWays}>
        <Button
          variant="default"
          component="a"
          href={cardAddress(id, 'card.png', withPhoto)}
          download="sward-call.png"
        >
          Save as a picture
        </Button>
        <Button variant="default" component="a" href={cardAddress(id, 'card.pdf', withPhoto)} target="_blank">
          Card to print
        </Button>
        <Button variant="default" onClick={() => tell(textOf(id).then(copy), 'The text is copied.')}>
          Copy as text
        </Button>
        <Button
          variant="default"
          onClick={() => tell(copy(window.location.href), 'The link is copied; it opens on this network.')}
        >
          Copy the link
        </Button>
        {'share' in navigator && (
          <Button variant="default" onClick={() => tell(sendOn(id, withPhoto), 'Handed on.')}>
            Send to someone
          </Button>
        )}
        <Button variant="default" onClick={() => window.print()}>
          Print this page
        </Button>
      </div>
      <p role="status">{told}</p>
    </section>
  );
};
