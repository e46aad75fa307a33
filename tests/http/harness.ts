import { randomUUID } from 'node:crypto';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { DEFAULT_LIMITS } from '../../server/config.ts';
import type { Marks } from '../../server/contract/marks.ts';
import { InputError } from '../../server/errors.ts';
import { type App, createApp } from '../../server/http/create-app.ts';
import type { Deps, Job, Readers } from '../../server/http/deps.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { thumbnail, uprightJpeg } from '../../server/photo/page-images.ts';
import { readHeader } from '../../server/photo/read-header.ts';
import { reEvaluateSighting } from '../../server/reading/re-evaluate-sighting.ts';
import { judge } from '../../server/rules/judge.ts';
import { openMemoryFiles } from '../../server/store/files/memory-files.ts';
import { openMemoryStore } from '../../server/store/memory/memory-store.ts';
import { lawnRecord } from '../store/samples.ts';
import { smallJpeg } from './pictures.ts';

/** Decodes the photo as a reading would, and refuses marks outside it. */
const look = async (photo: Uint8Array, marks: Marks): Promise<void> => {
  const { raster } = await openPhoto(photo);
  for (const [name, [x, y]] of Object.entries(marks.points))
    if (x < 0 || y < 0 || x > raster.width || y > raster.height)
      throw new InputError('mark-outside', `The mark ${name} lies outside the photo; drag it back.`);
};

/** Readers that answer at once with an invented lawn, after opening the picture. */
export const quickReaders = (): Readers => ({
  read: async (photo, marks, job) => {
    job.report({ step: 'find', message: 'Looking for balls.' });
    await look(photo, marks);
    const { photo: size, camera, balls, missing, call, warnings } = lawnRecord(randomUUID());
    return {
      photo: size,
      camera,
      balls,
      missing,
      warnings,
      pose: { covariance: Array(81).fill(0) },
      ...(call && marks.hoopScored && { call }),
    };
  },
  sight: async (photo, marks) => {
    await look(photo, marks);
    return {
      line: { axis: 'y', at: 16.002, nextHoopSide: 1 },
      balls: [{ colour: 'red', beyond: -0.08, sd: 0.004, probability: 0, lies: 'short', image: [10, 10] }],
      warnings: [],
    };
  },
  check: async (photo, marks) => {
    await look(photo, marks);
    return {
      tolerance: marks.tolerance!,
      markers: [],
      hoops: [],
      peg: { dx: 0.01, dy: 0, sd: 0.01, within: true },
      warnings: [],
    };
  },
  trace: async () => ({ corners: { corner1: [1, 2] }, sides: {} }),
  guess: async (_photo, former) => ({
    points: null,
    message: 'No line was found.',
    followed: former !== null,
  }),
  overhead: () => smallJpeg(),
});

/** A reader whose reading lasts until it is called off or `finish` is called. */
export const slowReader = () => {
  let finish = (): void => undefined;
  let begun = (_: Job): void => undefined;
  const started = new Promise<Job>((resolve) => {
    begun = resolve;
  });
  const quick = quickReaders();
  const read: Readers['read'] = async (photo, marks, job) => {
    begun(job);
    await new Promise<void>((resolve, reject) => {
      finish = resolve;
      job.signal.addEventListener('abort', () => reject(job.signal.reason));
    });
    return quick.read(photo, marks, job);
  };
  return { readers: { ...quick, read }, started, finish: () => finish() };
};

/** A service on a free port with everything in memory. */
export type Running = {
  readonly url: string;
  readonly deps: Deps;
  readonly incoming: string;
  readonly ask: (path: string, init?: RequestInit) => Promise<Response>;
  readonly send: (path: string, body: unknown, init?: RequestInit) => Promise<Response>;
  readonly close: () => Promise<void>;
};

const depsFor = (incoming: string, changes: Partial<Deps>): Deps => ({
  store: openMemoryStore(),
  files: openMemoryFiles(),
  photos: { facts: readHeader, upright: uprightJpeg, thumbnail },
  readers: quickReaders(),
  reEvaluate: (record, corrections) =>
    corrections.hoopScored === null ? (({ call: _, ...rest }) => rest)(record) : record,
  reEvaluateSighting,
  judge: (question) => judge(question as never) as never,
  stands: ({ height }) => ({
    line: { axis: 'y', at: 16.002, nextHoopSide: 1 },
    height,
    step: 1,
    cells: [],
    best: { x: 0, y: 0, sd: 0.01 },
  }),
  cards: {
    png: async (_, { photo }) => Uint8Array.of(1, photo ? 1 : 0),
    pdf: async (_, { photo }) => Uint8Array.of(2, photo ? 1 : 0),
    planSvg: ({ entry }) => `<svg id="after-${entry}"/>`,
    planPng: async ({ entry }) => Uint8Array.of(3, entry),
    scorePdf: async ({ log }) => Uint8Array.of(4, log.version),
    putBackPdf: async ({ entry }) => Uint8Array.of(5, entry),
    text: (record, { spot }) => `${record.sentence} ${spot ?? ''}`,
  },
  samples: { list: async () => [], photo: async () => null },
  now: () => new Date(),
  newId: randomUUID,
  log: pino({ level: 'silent' }),
  limits: DEFAULT_LIMITS,
  version: '0.0.0-test',
  incoming,
  host: '127.0.0.1',
  names: [],
  ...changes,
});

const listen = (app: App): Promise<Server> =>
  new Promise((resolve) => {
    const server = app.app.listen(0, '127.0.0.1', () => resolve(server));
  });

/** Starts the service; what `changes` names replaces the fakes. */
export const startService = async (changes: Partial<Deps> = {}): Promise<Running> => {
  const incoming = mkdtempSync(join(tmpdir(), 'sward-in-'));
  const deps = depsFor(incoming, changes);
  const app = createApp(deps);
  const server = await listen(app);
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const ask: Running['ask'] = (path, init) => fetch(url + path, init);
  const send: Running['send'] = (path, body, init = {}) =>
    ask(path, {
      method: 'POST',
      ...init,
      headers: { 'content-type': 'application/json', ...(init.headers as Record<string, string>) },
      body: JSON.stringify(body),
    });
  const close = async () => {
    app.close();
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    rmSync(incoming, { recursive: true, force: true });
  };
  return { url, deps, incoming, ask, send, close };
};

/** A form with a photo and text fields. */
export const formOf = (
  photo: Uint8Array | null,
  fields: Record<string, string> = {},
  name = 'photo.jpg',
): FormData => {
  const form = new FormData();
  if (photo) form.set('photo', new Blob([Uint8Array.from(photo)]), name);
  for (const [field, value] of Object.entries(fields)) form.set(field, value);
  return form;
};

/** Marks within the small picture. */
export const MARKS = {
  points: { corner1: [30, 400], corner2: [200, 100], corner3: [420, 100], corner4: [610, 390] },
  hoopScored: 1,
};

/** The error of an answer. */
export const errorOf = async (response: Response) =>
  ((await response.json()) as { error: { code: string; message: string; details?: Record<string, unknown> } })
    .error;

/** All that is kept: photos, readings, and files still on their way in. */
export const keptBy = async ({ deps, incoming }: Running) => ({
  photos: (await deps.store.photos.ids()).length,
  readings: (await deps.store.records.list({ limit: 100 })).readings.length,
  incoming: readdirSync(incoming).length,
});
