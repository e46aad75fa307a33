import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import parts from '../parts/parts.module.css';
import { ballName } from '../words/balls.ts';
import style from './forms.module.css';
import { type PairAnswer, type PairQuestion, pairName } from './turn-draft.ts';

const ANSWERS: readonly { readonly value: PairAnswer; readonly face: string }[] = [
  { value: 'yes', face: 'Yes' },
  { value: 'no', face: 'No' },
  { value: 'unseen', face: 'Nobody saw' },
];

type Props = {
  readonly pairs: readonly PairQuestion[];
  readonly onAnswer: (pair: string, answer: PairAnswer) => void;
};

const Rows = ({ pairs, onAnswer }: Props) =>
  pairs.map(({ pair, answer }) => (
    <ChoiceTiles
      key={pairName(pair)}
      label={`Did ${ballName(pair[0])} touch ${ballName(pair[1])}?`}
      across={3}
      value={answer}
      onChoose={(value) => onAnswer(pairName(pair), value)}
      options={ANSWERS}
    />
  ));

/** Whether balls of opposite sides touched: asked where it decides an excuse later, and no picture shows it. */
export const TurnTouches = ({ pairs, onAnswer }: Props) => {
  const rare = pairs.filter(({ kind }) => kind === 'rare');
  return (
    <>
      <Rows pairs={pairs.filter(({ kind }) => kind !== 'rare')} onAnswer={onAnswer} />
      {rare.length > 0 && (
        <details className={parts.more}>
          <summary>A ball was touched that hardly moved</summary>
          <div className={style.stack}>
            <Rows pairs={rare} onAnswer={onAnswer} />
          </div>
        </details>
      )}
    </>
  );
};
