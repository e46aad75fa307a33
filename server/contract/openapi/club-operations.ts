import { jsonBody, KEY, type Operation, pathId } from './operation.ts';

type Kind = {
  readonly path: 'spots' | 'lawns';
  readonly word: 'spot' | 'lawn';
  readonly schema: 'Spot' | 'Lawn';
};

const named = ({ path, word, schema }: Kind): Operation[] => {
  const base = `/api/${path}`;
  const tag = 'Club';
  const parameters = [pathId(`Id of the ${word}`)];
  const one = `${base}/{id}`;
  return [
    {
      method: 'get',
      path: base,
      tag,
      summary: `Lists the ${path} by name`,
      status: 200,
      answer: { list: path, of: schema },
    },
    {
      method: 'post',
      path: base,
      tag,
      summary: `Adds a ${word}`,
      status: 201,
      answer: { json: schema },
      parameters: [KEY],
      body: jsonBody(`${schema}Input`),
      refusals: [422],
    },
    {
      method: 'get',
      path: one,
      tag,
      summary: `One ${word}`,
      status: 200,
      answer: { json: schema },
      parameters,
    },
    {
      method: 'patch',
      path: one,
      tag,
      summary: `Changes a ${word}; what is left out stays`,
      status: 200,
      answer: { json: schema },
      parameters,
      body: jsonBody(`${schema}Change`),
      refusals: [422],
    },
    {
      method: 'delete',
      path: one,
      tag,
      summary: `Removes a ${word}; readings that named it stay`,
      status: 204,
      answer: null,
      parameters,
    },
  ];
};

const SAMPLE = pathId('Name of the sample', 'name');

/** Routes of what the club sets up, of the samples, and of the service itself. */
export const CLUB_OPERATIONS: readonly Operation[] = [
  {
    method: 'get',
    path: '/api/settings',
    tag: 'Club',
    summary: 'What the club chose',
    status: 200,
    answer: { json: 'Settings' },
  },
  {
    method: 'put',
    path: '/api/settings',
    tag: 'Club',
    summary: 'Keeps what the club chooses',
    status: 200,
    answer: { json: 'Settings' },
    body: jsonBody('SettingsInput'),
    refusals: [422],
  },
  ...named({ path: 'spots', word: 'spot', schema: 'Spot' }),
  ...named({ path: 'lawns', word: 'lawn', schema: 'Lawn' }),
  {
    method: 'get',
    path: '/api/samples',
    tag: 'Samples',
    summary: 'Pictures to try the program with',
    status: 200,
    answer: { list: 'samples', of: 'Sample' },
  },
  {
    method: 'post',
    path: '/api/samples/{name}',
    tag: 'Samples',
    summary: 'Makes a sample an ordinary photo; answers its photoId and marks',
    status: 201,
    answer: { json: 'TakenSample' },
    parameters: [SAMPLE, KEY],
    refusals: [503],
  },
  {
    method: 'get',
    path: '/api/samples/{name}/photo',
    tag: 'Samples',
    summary: 'The sample’s picture',
    status: 200,
    answer: { file: 'image/jpeg' },
    parameters: [SAMPLE],
  },
  {
    method: 'get',
    path: '/api/health',
    tag: 'Service',
    summary: 'Whether the service is well; 503 with the same form when it is not',
    status: 200,
    answer: { json: 'Health' },
  },
  {
    method: 'get',
    path: '/api/openapi.json',
    tag: 'Service',
    summary: 'This description',
    status: 200,
    answer: { file: 'application/json' },
  },
  {
    method: 'get',
    path: '/api/docs',
    tag: 'Service',
    summary: 'This description for people',
    status: 200,
    answer: { file: 'text/html' },
  },
];
