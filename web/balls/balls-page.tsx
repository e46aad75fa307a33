import { ReadingScreen } from '../reading/reading-screen.tsx';
import { useReadingWay } from '../reading/use-reading-way.ts';
import { Message } from '../shell/message.tsx';
import { BallsScreen } from './balls-screen.tsx';

/** Third step: the balls as they were found, to be put right. */
export const BallsPage = ({ id }: { id: string }) => {
  useReadingWay(id, 2);
  return (
    <ReadingScreen id={id}>
      {(record) =>
        record.kind === 'lawn' ? (
          <BallsScreen record={record} />
        ) : (
          <Message title="No balls are corrected on this kind of picture" />
        )
      }
    </ReadingScreen>
  );
};
