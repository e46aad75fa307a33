import { CLUB_OPERATIONS } from './club-operations.ts';
import { GAME_OPERATIONS } from './game-operations.ts';
import { jsonBody, KEY, type Operation, PROGRESS, pathId, photoForm, query } from './operation.ts';

const PHOTO = pathId('Id of the photo');
const READING = pathId('Id of the reading');
const CARD = query('photo', '0 leaves the photo, and with it the people, out', {
  type: 'string',
  enum: ['0', '1'],
});

const text = (description: string) => ({ type: 'string', description });
const READING_FORM = photoForm(
  {
    marks: text('The marks as JSON'),
    game: text('Id of the game'),
    spot: text('Id of the spot'),
    note: text('A note'),
  },
  ['marks'],
);

const PHOTO_OPERATIONS: readonly Operation[] = [
  {
    method: 'post',
    path: '/api/photos',
    tag: 'Photos',
    summary: 'Keeps a photo under an id of its own',
    status: 201,
    answer: { json: 'Photo' },
    parameters: [KEY],
    body: photoForm(),
    refusals: [413, 422, 503],
  },
  {
    method: 'get',
    path: '/api/photos/{id}',
    tag: 'Photos',
    summary: 'The upright picture',
    status: 200,
    answer: { file: 'image/jpeg' },
    parameters: [PHOTO],
  },
  {
    method: 'get',
    path: '/api/photos/{id}/thumbnail',
    tag: 'Photos',
    summary: 'A small upright picture',
    status: 200,
    answer: { file: 'image/jpeg' },
    parameters: [PHOTO],
  },
  {
    method: 'get',
    path: '/api/photos/{id}/facts',
    tag: 'Photos',
    summary: 'Size and origin of a photo',
    status: 200,
    answer: { json: 'Photo' },
    parameters: [PHOTO],
  },
];

const question = (
  path: string,
  summary: string,
  body: 'TraceRequest' | 'GuessRequest' | 'StandsRequest',
  answer: 'Trace' | 'Guess' | 'Stands',
): Operation => ({
  method: 'post',
  path,
  tag: 'Marking',
  summary,
  status: 200,
  answer: { json: answer },
  parameters: [PROGRESS],
  body: jsonBody(body),
  refusals: [409, 422, 503],
});

const AID_OPERATIONS: readonly Operation[] = [
  question('/api/traces', 'The boundary lines near the marks, and their crossings', 'TraceRequest', 'Trace'),
  question(
    '/api/guesses',
    'A guess of the corners from the white lines, or from the last picture of the spot',
    'GuessRequest',
    'Guess',
  ),
  question('/api/stands', 'From where a call on the next line can be settled', 'StandsRequest', 'Stands'),
];

const taking = (
  path: string,
  summary: string,
  answer: 'LawnRecord' | 'SightingRecord' | 'CheckRecord',
): Operation => ({
  method: 'post',
  path,
  tag: 'Readings',
  summary,
  status: 201,
  answer: { json: answer },
  parameters: [KEY, PROGRESS],
  body: { ...READING_FORM, ...jsonBody('ReadingRequest') },
  refusals: [409, 413, 422, 503],
});

const LIST_QUERY = [
  query('day', 'A day in UTC', { type: 'string', format: 'date' }),
  query('from', 'First instant included', { type: 'string', format: 'date-time' }),
  query('to', 'First instant no longer included', { type: 'string', format: 'date-time' }),
  query('kind', 'Kind of reading', { type: 'string', enum: ['lawn', 'sighting', 'check'] }),
  query('game', 'Id of the game'),
  query('spot', 'Id of the spot'),
  query('q', 'Words to look for in the note, the spot’s name and the game’s title'),
  query('limit', 'Most readings on a page', { type: 'integer', minimum: 1, maximum: 100, default: 30 }),
  query('before', 'The "next" of the page before'),
];

const ofReading = (path: string, summary: string, file: string, parameters = [READING]): Operation => ({
  method: 'get',
  path: `/api/readings/{id}/${path}`,
  tag: 'Readings',
  summary,
  status: 200,
  answer: { file },
  parameters,
});

const READING_OPERATIONS: readonly Operation[] = [
  taking('/api/readings', 'Reads a picture of the whole lawn', 'LawnRecord'),
  taking('/api/sightings', 'Reads a picture taken along the halfway line', 'SightingRecord'),
  taking('/api/checks', 'Checks the setting of the court', 'CheckRecord'),
  {
    method: 'post',
    path: '/api/combinations',
    tag: 'Readings',
    summary: 'Combines several readings of balls that have not moved into one answer; nothing is kept',
    status: 200,
    answer: { json: 'Combination' },
    body: jsonBody('CombinationRequest'),
    refusals: [422],
  },
  {
    method: 'get',
    path: '/api/readings',
    tag: 'Readings',
    summary: 'Lists readings of every kind, the newest first',
    status: 200,
    answer: { json: 'RecordPage' },
    parameters: LIST_QUERY,
    refusals: [422],
  },
  {
    method: 'get',
    path: '/api/readings/{id}',
    tag: 'Readings',
    summary: 'One reading',
    status: 200,
    answer: { json: 'Record' },
    parameters: [READING],
  },
  {
    method: 'get',
    path: '/api/readings/{id}/revisions',
    tag: 'Readings',
    summary: 'Every revision, the oldest first',
    status: 200,
    answer: { list: 'revisions', of: 'Record' },
    parameters: [READING],
  },
  {
    method: 'patch',
    path: '/api/readings/{id}',
    tag: 'Readings',
    summary:
      'Corrects a reading of the lawn or a picture along the line: balls put elsewhere, added, recoloured or taken away, the question asked, the labels. The answer is worked out again from the kept camera and kept as the next revision',
    status: 200,
    answer: { json: 'Record' },
    parameters: [READING],
    body: jsonBody('Corrections'),
    refusals: [409, 422],
  },
  {
    method: 'delete',
    path: '/api/readings/{id}',
    tag: 'Readings',
    summary: 'Deletes a reading, and its photo when nothing else uses it',
    status: 204,
    answer: null,
    parameters: [READING],
  },
  ofReading('photo', 'The upright picture', 'image/jpeg'),
  ofReading('thumbnail', 'A small upright picture', 'image/jpeg'),
  {
    ...ofReading('overhead', 'The lawn straightened, as seen from above', 'image/jpeg'),
    refusals: [422, 503],
  },
  ofReading('card.png', 'The call as a picture to share', 'image/png', [READING, CARD]),
  ofReading('card.pdf', 'The call as a page to print', 'application/pdf', [READING, CARD]),
  ofReading('card.txt', 'The call as text', 'text/plain'),
];

const PROGRESS_KEY = pathId('Name of the channel, as sent in X-Progress-Key', 'key');
const PROGRESS_OPERATIONS: readonly Operation[] = [
  {
    method: 'get',
    path: '/api/progress/{key}',
    tag: 'Progress',
    summary:
      'Server-sent events whose data is a Progress object; the last has the step done, failed or cancelled',
    status: 200,
    answer: { file: 'text/event-stream' },
    parameters: [PROGRESS_KEY],
  },
  {
    method: 'delete',
    path: '/api/progress/{key}',
    tag: 'Progress',
    summary: 'Calls the job off',
    status: 204,
    answer: null,
    parameters: [PROGRESS_KEY],
  },
];

/** Every route of the interface, described. */
export const OPERATIONS: readonly Operation[] = [
  ...PHOTO_OPERATIONS,
  ...AID_OPERATIONS,
  ...READING_OPERATIONS,
  ...PROGRESS_OPERATIONS,
  ...GAME_OPERATIONS,
  ...CLUB_OPERATIONS,
];
