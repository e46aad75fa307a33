import { type Request, Router } from 'express';
import type { z } from 'zod';
import { parseInput } from '../../contract/parse.ts';
import {
  ClubLawnSchema,
  LawnChangeSchema,
  LawnInputSchema,
  SpotChangeSchema,
  SpotInputSchema,
  SpotSchema,
} from '../../contract/spot.ts';
import type { NamedStore } from '../../store/store.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { done, found, given, idOf, json, noSuch } from '../handle.ts';
import { fingerprintOf, type Given, keyOf } from '../jobs/answer-once.ts';
import type { Service } from '../service.ts';

type Named = {
  readonly id: string;
  readonly name: string;
  readonly createdAt: string;
  readonly updatedAt: string;
};
/** A kind of named things: where they are kept and how a client describes and changes one. */
type Kind<T extends Named> = {
  readonly word: string;
  readonly list: 'spots' | 'lawns';
  readonly schema: z.ZodType<T>;
  readonly input: z.ZodType<object>;
  readonly change: z.ZodType<object>;
};

const create = <T extends Named>(
  { deps, once }: Service,
  kind: Kind<T>,
  request: Request,
): Promise<Given> => {
  const input = parseInput(kind.input, request.body, kind.word);
  const at = deps.now().toISOString();
  const item = kind.schema.parse({ ...input, id: deps.newId(), createdAt: at, updatedAt: at });
  const asked = {
    scope: `POST ${kind.word}`,
    key: keyOf(request),
    fingerprint: fingerprintOf(JSON.stringify(input)),
  };
  return once(asked, async () => ({
    status: 201,
    body: item,
    keep: (tables) => (tables[kind.list] as unknown as NamedStore<T>).create(item),
  }));
};

const change = <T extends Named>({ deps }: Service, kind: Kind<T>, request: Request): Promise<T> => {
  const id = idOf(request, kind.word);
  const changes = parseInput(kind.change, request.body, kind.word);
  const given = Object.fromEntries(Object.entries(changes).filter(([, value]) => value !== undefined));
  return deps.store.atomically(async (tables) => {
    const store = tables[kind.list] as unknown as NamedStore<T>;
    const before = found(await store.get(id), kind.word);
    const item = kind.schema.parse({ ...before, ...given, updatedAt: deps.now().toISOString() });
    await store.replace(item);
    return item;
  });
};

const remove = async ({ deps }: Service, { word, list }: Kind<never>, request: Request): Promise<void> => {
  const removed = await deps.store.atomically(async (tables) => {
    const id = idOf(request, word);
    await tables.answers.forgetAbout(id);
    return tables[list].remove(id);
  });
  if (!removed) throw noSuch(word);
};

const namedRouter = <T extends Named>(service: Service, kind: Kind<T>): Router => {
  const store = service.deps.store[kind.list];
  const router = Router();
  router.get(
    '/',
    json(async () => ({ [kind.list]: await store.list() })),
  );
  router.post(
    '/',
    given((request) => create(service, kind, request)),
  );
  router.get(
    '/:id',
    json(async (request) => found(await store.get(idOf(request, kind.word)), kind.word)),
  );
  router.patch(
    '/:id',
    json((request) => change(service, kind, request)),
  );
  router.delete(
    '/:id',
    done((request) => remove(service, kind as unknown as Kind<never>, request)),
  );
  return refuseOtherMethods(router);
};

/** `/api/spots`: places from which pictures are taken. */
export const spotsRouter = (service: Service): Router =>
  namedRouter(service, {
    word: 'spot',
    list: 'spots',
    schema: SpotSchema,
    input: SpotInputSchema,
    change: SpotChangeSchema,
  });

/** `/api/lawns`: the club's lawns. */
export const lawnsRouter = (service: Service): Router =>
  namedRouter(service, {
    word: 'lawn',
    list: 'lawns',
    schema: ClubLawnSchema,
    input: LawnInputSchema,
    change: LawnChangeSchema,
  });
