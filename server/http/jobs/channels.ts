import type { ProgressEvent } from '../../contract/service.ts';
import type { Job } from '../deps.ts';

type Listener = (event: ProgressEvent) => void;
type Channel = {
  readonly listeners: Set<Listener>;
  last: ProgressEvent | null;
  controller: AbortController | null;
  touched: number;
};

/** A job with its channel: `end` tells the last step and closes it. */
export type RunningJob = Job & { readonly end: (event: ProgressEvent) => void };

/** Channels on which jobs tell what they are doing. They live in memory: a restart ends the jobs as well. */
export interface Channels {
  /** A job that reports on channel `key`, or on none. */
  begin(key: string | undefined): RunningJob;
  /** Hears the last event of channel `key` at once and all that follow; the function returned stops it. */
  listen(key: string, listener: Listener): () => void;
  /** Calls the job of channel `key` off; false when none is running. */
  cancel(key: string): boolean;
  /** Calls every job off and tells everyone who listens. */
  close(): void;
}

/** Most channels kept; the one left alone for longest goes first. */
const MOST_CHANNELS = 500;

/** Channels in memory; `now` in ms orders them by use. */
export const openChannels = (now: () => number): Channels => {
  const channels = new Map<string, Channel>();

  const dropOldest = (): void => {
    if (channels.size < MOST_CHANNELS) return;
    const idle = [...channels].filter(([, { controller, listeners }]) => !controller && listeners.size === 0);
    const oldest = idle.toSorted(([, a], [, b]) => a.touched - b.touched)[0];
    if (oldest) channels.delete(oldest[0]);
  };

  const channelOf = (key: string): Channel => {
    const known = channels.get(key);
    if (known) return Object.assign(known, { touched: now() });
    dropOldest();
    const channel: Channel = { listeners: new Set(), last: null, controller: null, touched: now() };
    channels.set(key, channel);
    return channel;
  };

  const begin = (key: string | undefined): RunningJob => {
    const controller = new AbortController();
    if (key === undefined)
      return { signal: controller.signal, report: () => undefined, end: () => undefined };
    const channel = channelOf(key);
    channel.controller = controller;
    const report: Listener = (event) => {
      channel.last = event;
      for (const listener of channel.listeners) listener(event);
    };
    const end: Listener = (event) => {
      channel.controller = null;
      report(event);
    };
    // A key used again belongs to a new job: what the former one said last is past.
    channel.last = null;
    return { signal: controller.signal, report, end };
  };

  const listen: Channels['listen'] = (key, listener) => {
    const channel = channelOf(key);
    channel.listeners.add(listener);
    if (channel.last) listener(channel.last);
    return () => {
      channel.listeners.delete(listener);
    };
  };

  const cancel = (key: string): boolean => {
    const controller = channels.get(key)?.controller;
    controller?.abort();
    return controller !== undefined && controller !== null;
  };

  return {
    begin,
    listen,
    cancel,
    close: () => {
      for (const [key, { listeners }] of channels)
        if (!cancel(key))
          for (const listener of listeners) listener({ step: 'failed', message: 'The service stops.' });
    },
  };
};
