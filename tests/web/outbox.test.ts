import { describe, expect, test } from 'vitest';
import type { Draft } from '../../web/draft/draft.ts';
import { createOutbox, type OutboxPorts } from '../../web/draft/outbox.ts';
import { Refusal, Unreachable } from '../../web/service/request.ts';

const DRAFT: Draft = {
  id: 'd1',
  kind: 'lawn',
  createdAt: 0,
  version: 1,
  name: 'lawn.jpg',
  size: null,
  shownHere: true,
  pins: {},
  hoopScored: 1,
  balls: ['blue'],
  spot: null,
  game: null,
  state: 'waiting',
  photoId: null,
  readingId: null,
  sendKey: 'k1',
  past: [],
  pinsFrom: null,
  straightToCall: false,
  trouble: null,
};

/** A store of one draft and a server that counts what it is sent; `fail` is thrown by the reading as often as it says. */
const bench = (failures: readonly Error[] = []) => {
  let draft = DRAFT;
  const left = [...failures];
  const sent = { photos: 0, readings: [] as string[] };
  const ports: OutboxPorts = {
    drafts: async () => [draft],
    photo: async () => new Blob(['x']),
    update: async (_id, change) => {
      draft = change(draft);
      return draft;
    },
    sendPhoto: async () => {
      sent.photos++;
      return { id: 'p1', width: 4000, height: 3000 };
    },
    read: async (one) => {
      sent.readings.push(one.sendKey);
      const failure = left.shift();
      if (failure) throw failure;
      return { id: 'r1' };
    },
    cancel: async () => undefined,
    follow: () => () => undefined,
    tell: () => undefined,
  };
  return { outbox: createOutbox(ports), sent, draft: () => draft };
};

describe('the outbox', () => {
  test('sends photo and marks once and keeps the reading', async () => {
    const { outbox, sent, draft } = bench();
    expect(await outbox.run()).toBe(false);
    await outbox.run();
    expect(sent).toEqual({ photos: 1, readings: ['k1'] });
    expect(draft()).toMatchObject({
      state: 'read',
      readingId: 'r1',
      photoId: 'p1',
      size: { width: 4000, height: 3000 },
    });
  });

  test('waits while nobody answers, and sends again under the same key', async () => {
    const { outbox, sent, draft } = bench([new Unreachable()]);
    expect(await outbox.run()).toBe(true);
    expect(draft().state).toBe('waiting');
    expect(await outbox.run()).toBe(false);
    expect(sent).toEqual({ photos: 1, readings: ['k1', 'k1'] });
    expect(draft().state).toBe('read');
  });

  test('keeps a refusal in the words of the server and does not ask again', async () => {
    const { outbox, sent, draft } = bench([new Refusal(422, 'crossed-order', 'The marks cross over.')]);
    expect(await outbox.run()).toBe(false);
    await outbox.run();
    expect(sent.readings).toHaveLength(1);
    expect(draft()).toMatchObject({ state: 'marking', trouble: 'The marks cross over.' });
  });

  test('waits when the server is busy', async () => {
    const { outbox, draft } = bench([new Refusal(503, 'busy', 'Busy.')]);
    expect(await outbox.run()).toBe(true);
    expect(draft().state).toBe('waiting');
  });

  test('does not count a reading that was called off as trouble', async () => {
    const { outbox, draft } = bench([new Refusal(409, 'cancelled', 'Called off.')]);
    await outbox.run();
    expect(draft()).toMatchObject({ state: 'marking', trouble: null });
  });
});
