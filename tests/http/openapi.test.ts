import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { routesOf } from '../../server/http/guards/refuse-other-methods.ts';
import { RESOURCES } from '../../server/http/resources.ts';
import { openService } from '../../server/http/service.ts';
import { type Running, startService } from './harness.ts';

type Operation = { operationId: string; summary: string; responses: Record<string, unknown> };
type Description = {
  openapi: string;
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, object> };
};

let service: Running;
let description: Description;
beforeAll(async () => {
  service = await startService();
  description = (await (await service.ask('/api/openapi.json')).json()) as Description;
});
afterAll(() => service.close());

/** Files of the page of descriptions, which belong to it and to no interface. */
const PAGE_FILES = ['GET /api/docs/start.js'];

const served = (): string[] =>
  RESOURCES.flatMap(([base, router]) =>
    [...routesOf(router(openService(service.deps)))].flatMap(([path, methods]) =>
      methods.map((method) => `${method} ${base}${path === '/' ? '' : path}`),
    ),
  ).filter((route) => !PAGE_FILES.includes(route));

const described = (): string[] =>
  Object.entries(description.paths).flatMap(([path, operations]) =>
    Object.keys(operations).map(
      (method) => `${method.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`,
    ),
  );

describe('the description of the interface', () => {
  it('describes each route that is served, and no other', () => {
    expect(described().toSorted()).toEqual(served().toSorted());
    expect(served().length).toBeGreaterThan(50);
  });

  it('is OpenAPI 3.1 whose references all lead somewhere and whose operations have names of their own', () => {
    expect(description.openapi).toBe('3.1.0');
    const references = [...JSON.stringify(description).matchAll(/"\$ref":"([^"]+)"/g)].map(([, ref]) => ref!);
    const known = Object.keys(description.components.schemas).map((name) => `#/components/schemas/${name}`);
    expect([...new Set(references)].filter((reference) => !known.includes(reference))).toEqual([]);
    const ids = Object.values(description.paths).flatMap((path) =>
      Object.values(path).map(({ operationId }) => operationId),
    );
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('comes with a page that loads nothing from elsewhere', async () => {
    const page = await (await service.ask('/api/docs')).text();
    const files = [...page.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, path]) => path!);
    expect(files.length).toBe(3);
    for (const path of files) {
      expect(path).toMatch(/^\/api\/docs\//);
      expect((await service.ask(path)).status).toBe(200);
    }
  });
});
