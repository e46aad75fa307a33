import { describeOperation } from './operation.ts';
import { OPERATIONS } from './operations.ts';
import { schemaComponents } from './schemas.ts';

const ABOUT =
  'Reads where every ball lies on a golf croquet lawn from one photograph, and which are past the halfway line. Lengths in metres: origin corner 1, x east, y north. Image positions in px of the upright photo, origin at the top-left corner of the top-left pixel. Instants in UTC. Every refusal has the same form, with a stable code and one sentence.';

const paths = (): Record<string, Record<string, object>> => {
  const byPath: Record<string, Record<string, object>> = {};
  for (const operation of OPERATIONS)
    byPath[operation.path] = { ...byPath[operation.path], [operation.method]: describeOperation(operation) };
  return byPath;
};

/** The description of the whole interface in OpenAPI 3.1, for version `version` of the program. */
export const openApiDocument = (version: string): object => ({
  openapi: '3.1.0',
  info: { title: 'Sward', version, description: ABOUT, license: { name: 'MIT', identifier: 'MIT' } },
  servers: [{ url: '/' }],
  paths: paths(),
  components: { schemas: schemaComponents() },
});
