import { ReadingScreen } from '../reading/reading-screen.tsx';
import { useReadingWay } from '../reading/use-reading-way.ts';
import { Message } from '../shell/message.tsx';
import { CallScreen } from './call-screen.tsx';

/** Last step: the call. */
export const CallPage = ({ id }: { id: string }) => {
  useReadingWay(id, 3);
  return (
    <ReadingScreen id={id}>
      {(record) =>
        record.kind === 'lawn' ? (
          <CallScreen key={record.id} record={record} />
        ) : (
          <Message title="This picture has no call of this kind" />
        )
      }
    </ReadingScreen>
  );
};
