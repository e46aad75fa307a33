import { useMutation, useQuery } from '@tanstack/react-query';
import { useLocation } from 'wouter';
import type { RecordSummary } from '../../server/contract/record.ts';
import { type GameState, standingsOf } from '../../server/games/state.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import { TakePhoto } from '../home/take-photo.tsx';
import parts from '../parts/parts.module.css';
import type { Game } from '../service/games.ts';
import { correctReading, listReadings, thumbnailAddress } from '../service/readings.ts';
import { sentenceOf } from '../service/request.ts';
import { timeOfDay } from '../words/times.ts';
import formsStyle from './forms.module.css';
import turnStyle from './turn.module.css';
import type { TurnChange } from './turn-form.tsx';

type Props = { readonly game: Game; readonly state: GameState; readonly change: TurnChange };

const turnAddress = (game: Game, reading: string, change: TurnChange): string => {
  const at = change ? `&${change.how === 'replace' ? 'correct' : 'after'}=${change.entry}` : '';
  return `/games/${game.id}/turn?reading=${reading}${at}`;
};

/** Last point whose halfway line a picture can be called by. */
const LAST_LINE = 12;

/** Pictures of this lawn that no turn of this game has used: of this game, of the other one on the same lawn, or of none. */
const freshOf = (readings: readonly RecordSummary[], game: Game): readonly RecordSummary[] => {
  const used = game.events.flatMap(({ event }) => ('reading' in event ? [event.reading] : []));
  return readings.filter(({ id }) => !used.includes(id)).slice(0, 3);
};

/** A picture for this turn: one to be taken, or one of the latest readings, which then belongs to the game. */
export const TurnPicture = ({ game, state, change }: Props) => {
  const [, go] = useLocation();
  const { data } = useQuery({
    queryKey: ['readings', 'for turn'],
    queryFn: () => listReadings({ kind: 'lawn' }),
    staleTime: 0,
  });
  const use = useMutation({
    mutationFn: async ({ id, game: of }: RecordSummary) => {
      if (of === null) await correctReading(id, { game: game.id });
      go(turnAddress(game, id, change));
    },
  });
  const { setup } = state;
  const point = standingsOf(state).pointDue;
  return (
    <details className={parts.more}>
      <summary>Take the places from a picture</summary>
      <div className={formsStyle.stack}>
        {freshOf(data?.readings ?? [], game).map((reading) => (
          <button
            key={reading.id}
            type="button"
            className={turnStyle.picture}
            disabled={use.isPending}
            onClick={() => use.mutate(reading)}
          >
            <img src={thumbnailAddress(reading.id)} alt="" width="88" height="66" loading="lazy" />
            <span>
              <b>Picture of {timeOfDay(reading.createdAt)}</b>
              <br />
              {reading.sentence}
            </span>
          </button>
        ))}
        {use.error && <p role="alert">{sentenceOf(use.error)}</p>}
        <TakePhoto
          start={{
            game: game.id,
            balls: BALL_ORDER[setup.colours],
            hoopScored: (point !== null && point <= LAST_LINE ? point : null) as HoopPoint | null,
            ...(setup.spot && { spot: setup.spot }),
          }}
        />
      </div>
    </details>
  );
};
