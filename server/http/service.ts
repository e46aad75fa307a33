import type { Deps } from './deps.ts';
import { type AnswerOnce, openAnswers } from './jobs/answer-once.ts';
import { type Channels, openChannels } from './jobs/channels.ts';
import { openRunner, type RunJob } from './jobs/run-job.ts';

/** What the routes share while the service runs. */
export type Service = {
  readonly deps: Deps;
  readonly once: AnswerOnce;
  readonly channels: Channels;
  readonly run: RunJob;
};

/** The service on top of `deps`. */
export const openService = (deps: Deps): Service => {
  const channels = openChannels(() => deps.now().getTime());
  return {
    deps,
    once: openAnswers(deps.store, deps.now),
    channels,
    run: openRunner(channels, deps.limits.waitingJobs),
  };
};
