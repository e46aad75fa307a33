import { useState } from 'react';
import type { Combination } from '../../server/contract/combine.ts';
import type { LawnSchema } from '../../server/contract/marks.ts';
import { sayCalls } from '../../server/contract/verdict.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import callStyle from '../call/call.module.css';
import { nextHoopWords } from '../call/next-hoop-words.ts';
import { byCloseness } from '../call/say-call.ts';
import parts from '../parts/parts.module.css';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { ballName, listed } from '../words/balls.ts';
import checkStyle from './check.module.css';
import courtStyle from './court.module.css';
import { SightingCard } from './sighting-card.tsx';
import standStyle from './stand.module.css';

type Lawn = ReturnType<(typeof LawnSchema)['parse']>;

/** A place in two pictures that differs by less, px, shows as nothing in a list. */
const LEAST_SHOWN = 0.05;

/** Whether the pictures agree, ball by ball: what does not fit is named with its picture, the worst first. */
const Agreement = ({ answer }: { answer: Combination }) => {
  const against = answer.misfits
    .filter(({ fits, px }) => !fits && px >= LEAST_SHOWN)
    .toSorted((a, b) => b.deviations - a.deviations);
  if (answer.misfits.every(({ fits }) => fits))
    return <p>The pictures agree: no ball is farther off in one of them than chance explains.</p>;
  return (
    <details className={parts.more}>
      <summary>What does not fit</summary>
      <ul className={`${parts.rows} ${checkStyle.list}`} data-standing="off">
        {against.map(({ picture, colour, px }) => (
          <li key={`${picture} ${colour}`}>
            <b>{ballName(colour)}</b> in picture {picture + 1} lies {px.toFixed(1)} px from where all pictures
            together put it.
          </li>
        ))}
      </ul>
    </details>
  );
};

/** The answer of several pictures together. */
export const TogetherAnswer = ({ answer, lawn }: { answer: Combination; lawn: Lawn }) => {
  const calls = byCloseness(answer.call?.balls ?? []);
  const [open, setOpen] = useState<BallColour | null>(calls[0]?.colour ?? null);
  return (
    <div className={courtStyle.together}>
      <section className={parts.group} aria-live="polite">
        <h2 className={standStyle.lead}>
          {answer.call ? sayCalls(answer.call.balls) : 'The places of the balls'}
        </h2>
        {answer.warnings.map(({ code, message }) => (
          <p key={`${code} ${message}`} className={parts.notice}>
            {message}
          </p>
        ))}
        <Agreement answer={answer} />
        <ul className={callStyle.cards}>
          {calls.map((call) => (
            <SightingCard
              key={call.colour}
              call={call}
              axis={answer.call!.line.axis}
              next={nextHoopWords(answer.call!)}
              uncalled={
                answer.balls.find(({ colour }) => colour === call.colour)?.fits === false
                  ? 'not called, for the pictures do not agree about it'
                  : undefined
              }
              open={open === call.colour}
              onOpen={() => setOpen(open === call.colour ? null : call.colour)}
            />
          ))}
        </ul>
        {answer.missing.length > 0 && <p>Found in no picture: {listed(answer.missing.map(ballName))}.</p>}
      </section>
      <LawnPlan
        court={courtOfMarks(lawn)}
        label="Plan of the lawn with the balls of all pictures"
        line={answer.call?.line}
        balls={answer.balls}
        chosen={open}
      />
    </div>
  );
};
