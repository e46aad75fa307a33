import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { BegunSchema, GameEventSchema } from '../../server/contract/game.ts';
import type { Entry, GameEvent, Placement, Placements, Turn } from '../../server/games/events.ts';
import type { GameState } from '../../server/games/state.ts';
import { scoreOf, statusOf } from '../../server/games/state.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { judgeWrongBall } from '../../server/rules/wrong-ball.ts';
import { byHand } from '../../web/games/hand-placement.ts';
import { justScored, momentsOf } from '../../web/games/moments.ts';
import { RulingCard } from '../../web/games/ruling-card.tsx';
import { sayEvent } from '../../web/games/say-event.ts';
import {
  BLANK_TURN,
  draftOf,
  type TurnBase,
  type TurnDraft,
  understand,
} from '../../web/games/turn-draft.ts';
import {
  BEFORE_HOOP_1,
  DEMO_GAME,
  HOOP_1,
  TO_HOOP_2,
  WHOLE_GAME,
  WRONG_BALL,
} from '../browser/support/demo-game.ts';

const AT = '2026-05-02T14:00:00.000Z';
const entriesOf = (events: readonly unknown[]): readonly Entry[] =>
  [
    BegunSchema.parse({ type: 'begun', ...DEMO_GAME }),
    ...events.map((event) => GameEventSchema.parse(event)),
  ].map((event, i) => ({ number: i + 1, at: AT, event: event as GameEvent }));
const stateAfter = (events: readonly unknown[]): GameState => momentsOf(entriesOf(events)).at(-1)!.after;

describe('a game moment by moment', () => {
  it('plays the demonstration to its end: red and yellow win by four hoops to two', () => {
    const { after } = momentsOf(entriesOf(WHOLE_GAME)).at(-1)!;
    expect(statusOf(after)).toBe('ended');
    // Hoops 1, 3, 5, 6 by red and yellow, 2 and 4 by blue and black: counted in demo-game.ts.
    expect(scoreOf(after.points)).toEqual([2, 4]);
  });
  it('carries a correction out where it belongs', () => {
    const correction = { type: 'correction', how: 'remove', entry: 9 };
    const moments = momentsOf(entriesOf([...BEFORE_HOOP_1, HOOP_1, correction]));
    expect(moments.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });
  it('is empty for a log that does not replay', () => {
    expect(momentsOf(entriesOf([BEFORE_HOOP_1[1]]))).toEqual([]);
  });
  it('says whether the last stroke scored', () => {
    const scored = [...BEFORE_HOOP_1, HOOP_1];
    expect(justScored(momentsOf(entriesOf(scored)))).toBe(true);
    expect(justScored(momentsOf(entriesOf([...scored, TO_HOOP_2[0]])))).toBe(false);
    expect(justScored(momentsOf(entriesOf([])))).toBe(false);
  });
});

describe('an entry in words', () => {
  const played = stateAfter([...BEFORE_HOOP_1]);
  it.each([
    ['a turn that scores', HOOP_1, 'Yellow played. Yellow scored hoop 1.'],
    ['balls that touched', TO_HOOP_2[2], 'Black played. Red and Black touched.'],
    ['a wrong ball', WRONG_BALL, 'Red was played, a wrong ball.'],
    ['a suspension', { type: 'suspended', reason: 'Failing light' }, 'Play was suspended: Failing light.'],
    [
      'an end',
      { type: 'ended', reason: 'conceded', winner: 0 },
      'The game ended: the game was conceded; blue and black won.',
    ],
  ])('says %s', (_name, event, words) => {
    expect(sayEvent(GameEventSchema.parse(event) as Turn, played)).toBe(words);
  });
});

const base = (state: GameState, seen: Placements = {}, pointSeen = false): TurnBase => ({
  state,
  seen,
  reading: Object.keys(seen).length > 0 ? '00000000-0000-4000-8000-000000000001' : null,
  pointSeen,
});
const put = (spots: { readonly [ball in BallColour]?: readonly [number, number] }): TurnDraft => ({
  ...BLANK_TURN,
  put: Object.fromEntries(Object.entries(spots).map(([ball, [x, y]]) => [ball, byHand(x, y)])),
});

/** After four turns blue is due. */
const OPENED = stateAfter(BEFORE_HOOP_1.slice(0, 4));

describe('a turn entered by hand', () => {
  it('takes the due ball for the one played when nothing was moved', () => {
    const turn = understand(base(OPENED), BLANK_TURN);
    expect(turn.ball).toBe('blue');
    expect(turn.open).toEqual([]);
    expect(turn.event?.type).toBe('turn');
    // A ball that was struck and stayed keeps its place (blue, first turn of the demonstration).
    expect(turn.event?.positions.blue).toMatchObject({ x: 7.3, y: 4.6 });
  });
  it('counts a ball moved by hand as moved, however little', () => {
    expect(understand(base(OPENED), put({ blue: [7.4, 4.6] })).moved).toEqual(['blue']);
  });
  it('asks nothing about touching when one ball moved', () => {
    const { pairs, open } = understand(base(OPENED), put({ blue: [7.4, 5.6] }));
    expect(pairs.every(({ kind }) => kind === 'rare')).toBe(true);
    expect(open).toEqual([]);
  });
  it('concludes that the ball played touched the only other one that moved', () => {
    const turn = understand(base(OPENED), put({ blue: [7.4, 5.6], red: [5, 5.5] }));
    expect(turn.event?.touched).toEqual([['blue', 'red']]);
  });
  it('asks which touched when three balls moved', () => {
    const turn = understand(base(OPENED), put({ blue: [7.4, 5.6], red: [5, 5.5], black: [9, 5] }));
    expect(turn.open).toEqual(['whether Blue and Red touched', 'whether Red and Black touched']);
    expect(turn.event).toBeNull();
  });
  it('leaves contacts unknown when nobody saw', () => {
    const draft = put({ blue: [7.4, 5.6], red: [5, 5.5], black: [9, 5] });
    const touches = { 'blue red': 'yes', 'red black': 'unseen' } as const;
    const { event } = understand(base(OPENED), { ...draft, touches });
    expect(event).not.toHaveProperty('touched');
    expect(event?.moved).toEqual(['blue', 'red', 'black']);
  });
  it('asks whether a hoop was scored when a ball has come past it', () => {
    // Hoop 1 is run northward at 7 yd, 6.4 m, from the south boundary (Law 2).
    const draft = put({ blue: [6.4, 8.2] });
    expect(understand(base(OPENED), draft).open).toEqual(['whether hoop 1 was scored']);
    expect(understand(base(OPENED), { ...draft, scored: ['blue'] }).event?.scored).toEqual(['blue']);
  });
  it("makes a wrong ball of the partner's, struck by its own side", () => {
    const { event } = understand(base(OPENED), put({ black: [8, 6] }));
    expect(event).toMatchObject({ type: 'wrongBall', ball: 'black', player: 'blue' });
  });
  it("asks who struck an opponents' ball", () => {
    const turn = understand(base(OPENED), put({ red: [6, 6] }));
    expect(turn.ball).toBe('red');
    expect(turn.open).toEqual(['who struck it']);
  });
});

describe('a turn entered from a picture', () => {
  const SD = 0.01;
  const seenAt = (x: number, y: number): Placement => ({
    x,
    y,
    sdX: SD,
    sdY: SD,
    correlation: 0,
    origin: 'reading',
  });
  const all = { red: seenAt(5.9, 5.1), black: seenAt(8.4, 5.3), yellow: seenAt(6.2, 4.4) };
  it('takes a ball that lies where a finger had put it for one at rest', () => {
    // Placed by finger to a quarter of a metre: 0.3 m away is no sign of a stroke.
    const turn = understand(
      base(OPENED, { ...all, black: seenAt(8.7, 5.3), blue: seenAt(7.3, 6) }),
      BLANK_TURN,
    );
    expect(turn.moved).toEqual(['blue']);
    // It is measured better now, so the log is told.
    expect(turn.event?.positions.black).toMatchObject({ x: 8.7, origin: 'reading' });
  });
  it('asks for the hoop when the picture was called for it', () => {
    const seen = { ...all, blue: seenAt(7.3, 5.6) };
    expect(understand(base(OPENED, seen, true), BLANK_TURN).open).toEqual(['whether hoop 1 was scored']);
  });
  it('leaves a ball that it does not show where it lay', () => {
    const { event } = understand(base(OPENED, { blue: seenAt(7.3, 6.4) }), { ...BLANK_TURN, scored: [] });
    expect(Object.keys(event!.positions)).toEqual(['blue']);
  });
});

describe('a turn that is corrected', () => {
  it('begins as it was logged', () => {
    const [before, event] = [stateAfter([...BEFORE_HOOP_1, HOOP_1, ...TO_HOOP_2.slice(0, 2)]), TO_HOOP_2[2]];
    const logged = GameEventSchema.parse(event) as Turn;
    const again = understand(base(before), draftOf(logged, ['blue', 'red', 'black', 'yellow'])).event;
    expect(again).toMatchObject({
      type: 'turn',
      player: logged.player,
      ball: logged.ball,
      positions: logged.positions,
      touched: logged.touched,
      scored: logged.scored,
    });
  });
});

describe('a ruling on a wrong ball', () => {
  const text = (player: BallColour, ball: BallColour, edition: '2022' | '2013' = '2022') => {
    const ruling = judgeWrongBall({
      edition,
      format: 'doubles',
      set: 'first',
      lastRight: 'blue',
      opening: false,
      strokes: [{ player, ball }],
    });
    return renderToStaticMarkup(createElement(RulingCard, { ruling, striker: player })).replaceAll(
      /<[^>]+>/g,
      ' ',
    );
  };
  it.each([
    // "Resolving wrong ball plays" (croquet.org.uk): the partner ball, rule 10.5.
    [
      'names the opponents who choose',
      text('red', 'yellow'),
      /The opponents choose .* That of Blue and Black\./,
    ],
    ['says what each choice brings', text('red', 'yellow'), /then Red plays, and points do not count/],
    // The same page: an opponent's ball, rule 10.5.
    [
      'leaves no choice for an opponents’ ball',
      text('red', 'black'),
      /Nobody&#x27;s: the rule says what happens\./,
    ],
    // Players' discussion, May 2022: a side not entitled to play, rule 10.3.
    ['annuls a stroke out of turn', text('blue', 'blue'), /The stroke is annulled/],
    [
      'names balls as people do',
      text('red', 'black'),
      /Black, an opponent&#x27;s ball, was played instead of Red/,
    ],
  ])('%s', (_name, words, expected) => {
    expect(words).toMatch(expected);
  });
});
