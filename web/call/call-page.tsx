import type { LawnRecord } from '../../server/contract/record.ts';
import { ReadingScreen } from '../reading/reading-screen.tsx';
import { useReadingWay } from '../reading/use-reading-way.ts';
import { Message } from '../shell/message.tsx';
import { CallScreen } from './call-screen.tsx';

const Call = ({ record }: { record: LawnRecord }) => {
  useReadingWay(record, 3);
  return <CallScreen key={record.id} record={record} />;
};

/** Last step: the call. */
export const CallPage = ({ id }: { id: string }) => (
  <ReadingScreen id={id}>
    {(record) =>
      record.kind === 'lawn' ? (
        <Call record={record} />
      ) : (
        <Message title="This picture has no call of this kind" />
      )
    }
  </ReadingScreen>
);
