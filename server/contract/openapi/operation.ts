import { ref, type SchemaName } from './schemas.ts';

/** HTTP methods in use. */
export type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';

/** A described parameter. */
export type Parameter = {
  readonly name: string;
  readonly in: 'path' | 'query' | 'header';
  readonly required: boolean;
  readonly description: string;
  readonly schema: object;
};

/** What an operation answers when it succeeds: JSON of a schema, an object with a list of it, a file, or nothing. */
export type Success =
  | { readonly json: SchemaName }
  | { readonly list: string; readonly of: SchemaName }
  | { readonly file: string }
  | null;

/** One route, described. */
export type Operation = {
  readonly method: Method;
  readonly path: string;
  readonly tag: string;
  readonly summary: string;
  readonly status: number;
  readonly answer: Success;
  readonly parameters?: readonly Parameter[];
  /** Media types that the body may have, with its schema. */
  readonly body?: Readonly<Record<string, object>>;
  /** Statuses of refusals beside 400, 404 and 429, which any route may give. */
  readonly refusals?: readonly number[];
};

const REFUSALS: Readonly<Record<number, string>> = {
  400: 'The request has not the form that is needed',
  404: 'There is no such thing',
  409: 'Called off, or changed elsewhere meanwhile',
  413: 'Too large',
  415: 'In a form that is not read',
  422: 'Understood, but it cannot be done with this picture, these marks or these values',
  429: 'Too many requests; Retry-After says when to come again',
  503: 'Busy; Retry-After says when to come again',
};

const BINARY = { type: 'string', contentMediaType: 'application/octet-stream' };

const contentOf = (answer: Exclude<Success, null>): Record<string, { schema: object }> => {
  if ('json' in answer) return { 'application/json': { schema: ref(answer.json) } };
  if ('file' in answer)
    return { [answer.file]: { schema: answer.file.startsWith('text/') ? { type: 'string' } : BINARY } };
  const list = { type: 'array', items: ref(answer.of) };
  return {
    'application/json': {
      schema: { type: 'object', properties: { [answer.list]: list }, required: [answer.list] },
    },
  };
};

const refusal = (status: number) => [
  String(status),
  { description: REFUSALS[status]!, content: { 'application/json': { schema: ref('Error') } } },
];

const responsesOf = ({ status, answer, refusals = [] }: Operation) => ({
  [status]: {
    description: answer === null ? 'Done' : 'The answer',
    ...(answer && { content: contentOf(answer) }),
  },
  ...Object.fromEntries([400, 404, 429, ...refusals].toSorted((a, b) => a - b).map(refusal)),
});

const bodyOf = ({ body }: Operation) =>
  body && {
    requestBody: {
      required: true,
      content: Object.fromEntries(Object.entries(body).map(([type, schema]) => [type, { schema }])),
    },
  };

/** `operation` as OpenAPI writes it, under an id made of its method and path. */
export const describeOperation = (operation: Operation): object => ({
  tags: [operation.tag],
  summary: operation.summary,
  operationId: `${operation.method}${operation.path.replaceAll(/[^a-zA-Z]+(.)?/g, (_, letter = '') => letter.toUpperCase())}`,
  ...(operation.parameters && { parameters: operation.parameters }),
  ...bodyOf(operation),
  responses: responsesOf(operation),
});

/** The parameter of the path that names one thing. */
export const pathId = (description: string, name = 'id'): Parameter => ({
  name,
  in: 'path',
  required: true,
  description,
  schema: { type: 'string' },
});

/** An optional parameter of the query. */
export const query = (name: string, description: string, schema: object = { type: 'string' }): Parameter => ({
  name,
  in: 'query',
  required: false,
  description,
  schema,
});

const header = (name: string, description: string): Parameter => ({
  name,
  in: 'header',
  required: false,
  description,
  schema: { type: 'string', minLength: 8, maxLength: 100 },
});

/** The header that makes sending twice harmless. */
export const KEY = header('Idempotency-Key', 'The same key gets the same answer, and nothing is kept twice');
/** The header that names a channel for progress. */
export const PROGRESS = header(
  'X-Progress-Key',
  'Name of the channel under /api/progress that tells what is being done',
);

/** A JSON body of the schema `name`. */
export const jsonBody = (name: SchemaName) => ({ 'application/json': ref(name) });

/** A form with a photo and further text fields. */
export const photoForm = (
  fields: Readonly<Record<string, object>> = {},
  required: readonly string[] = [],
) => ({
  'multipart/form-data': {
    type: 'object',
    properties: { photo: BINARY, ...fields },
    required: ['photo', ...required],
  },
});
