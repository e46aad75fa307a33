import type { LawnRecord, SightingRecord } from '../../server/contract/record.ts';
import { ReadingScreen } from '../reading/reading-screen.tsx';
import { useReadingWay } from '../reading/use-reading-way.ts';
import { Message } from '../shell/message.tsx';
import { BallsScreen } from './balls-screen.tsx';

const Balls = ({ record }: { record: LawnRecord | SightingRecord }) => {
  useReadingWay(record, 2);
  return <BallsScreen record={record} />;
};

/** Third step: the balls as they were found, to be put right. */
export const BallsPage = ({ id }: { id: string }) => (
  <ReadingScreen id={id}>
    {(record) =>
      record.kind === 'check' ? (
        <Message title="A court check looks for no balls" />
      ) : (
        <Balls record={record} />
      )
    }
  </ReadingScreen>
);
