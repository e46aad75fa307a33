import type { ProgressEvent } from '../../server/contract/service.ts';

/** Listens to a job's channel until it ends or the returned function is called. A broken channel is no fault of the job: it falls silent. */
export const followProgress = (key: string, tell: (event: ProgressEvent) => void): (() => void) => {
  const source = new EventSource(`/api/progress/${key}`);
  const hear = (event: MessageEvent<string>) => {
    const progress = JSON.parse(event.data) as ProgressEvent;
    tell(progress);
    if (['done', 'failed', 'cancelled'].includes(progress.step)) source.close();
  };
  source.addEventListener('message', hear);
  source.addEventListener('progress', hear as EventListener);
  return () => source.close();
};

/** Stops a job. Resolves also when it had already ended or cannot be reached. */
export const cancelJob = async (key: string): Promise<void> => {
  await fetch(`/api/progress/${key}`, { method: 'DELETE' }).catch(() => undefined);
};
