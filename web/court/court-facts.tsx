import type { CheckRecord } from '../../server/contract/record.ts';
import parts from '../parts/parts.module.css';
import { sayPaint, sayScale, saySquareness } from './say-court.ts';

/** Whether the boundary is a true rectangle of the stated size, how the tape compares, and how wide the paint is. */
export const CourtFacts = ({ record }: { record: CheckRecord }) => {
  const sentences = [
    ...saySquareness(record.squareness),
    ...sayScale(record.scale),
    ...sayPaint(record.paint),
  ];
  if (sentences.length === 0) return null;
  return (
    <section className={parts.group}>
      <h2>The boundary</h2>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </section>
  );
};
