import { useState } from 'react';
import type { Combination } from '../../server/contract/combine.ts';
import { sayCalls } from '../../server/contract/verdict.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import callStyle from '../call/call.module.css';
import { nextHoopWords } from '../call/next-hoop-words.ts';
import { byCloseness } from '../call/say-call.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { SightingCard } from './sighting-card.tsx';

/** The answer of several pictures together. */
export const TogetherAnswer = ({ answer }: { answer: Combination }) => {
  const calls = byCloseness(answer.call?.balls ?? []);
  const [open, setOpen] = useState<BallColour | null>(calls[0]?.colour ?? null);
  return (
    <section className={callStyle.words} style={{ padding: 0 }}>
      <h2>{answer.call ? sayCalls(answer.call.balls) : 'The places of the balls'}</h2>
      {answer.warnings.map(({ code, message }) => (
        <p key={`${code} ${message}`} className={callStyle.warning}>
          {message}
        </p>
      ))}
      <ul className={callStyle.cards}>
        {calls.map((call) => (
          <SightingCard
            key={call.colour}
            call={{ ...call, image: [0, 0] }}
            axis={answer.call!.line.axis}
            next={nextHoopWords(answer.call!)}
            open={open === call.colour}
            onOpen={() => setOpen(open === call.colour ? null : call.colour)}
          />
        ))}
      </ul>
      <LawnPlan
        court={STANDARD_COURT}
        label="Plan of the lawn with the balls of all pictures"
        line={answer.call?.line}
        balls={answer.balls}
        chosen={open}
      />
    </section>
  );
};
