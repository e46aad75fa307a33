import { jsonBody, KEY, type Operation, pathId, query } from './operation.ts';

const GAME = pathId('Id of the game');
const TURN = query('turn', 'The moment after this turn, from 1; 0 is the start, none is the present', {
  type: 'integer',
  minimum: 0,
});
const ANY = { 'application/json': { type: 'object' } };

const print = (path: string, summary: string, file: string, parameters = [GAME]): Operation => ({
  method: 'get',
  path: `/api/games/{id}/${path}`,
  tag: 'Games',
  summary,
  status: 200,
  answer: { file },
  parameters,
});

/** Routes of games and of the rules. */
export const GAME_OPERATIONS: readonly Operation[] = [
  {
    method: 'get',
    path: '/api/games',
    tag: 'Games',
    summary: 'Lists games, the newest first',
    status: 200,
    answer: { list: 'games', of: 'GameHead' },
  },
  {
    method: 'post',
    path: '/api/games',
    tag: 'Games',
    summary: 'Begins a game',
    status: 201,
    answer: { json: 'Game' },
    parameters: [KEY],
    body: ANY,
    refusals: [422],
  },
  {
    method: 'post',
    path: '/api/games/import',
    tag: 'Games',
    summary: 'Makes a game of an exported file',
    status: 201,
    answer: { json: 'Game' },
    parameters: [KEY],
    body: ANY,
    refusals: [413, 422],
  },
  {
    method: 'get',
    path: '/api/games/{id}',
    tag: 'Games',
    summary: 'A game: its log and the state it replays to',
    status: 200,
    answer: { json: 'Game' },
    parameters: [GAME],
  },
  {
    method: 'delete',
    path: '/api/games/{id}',
    tag: 'Games',
    summary: 'Deletes a game; its readings stay',
    status: 204,
    answer: null,
    parameters: [GAME],
  },
  {
    method: 'post',
    path: '/api/games/{id}/events',
    tag: 'Games',
    summary: 'Adds to the log; 409 tells what the log expected, or the version it has',
    status: 201,
    answer: { json: 'Game' },
    parameters: [GAME, KEY],
    body: jsonBody('GameAddition'),
    refusals: [409, 422],
  },
  print('export.json', 'The game as a file that can be imported', 'application/json'),
  print('positions.csv', 'Where the balls lay after each turn', 'text/csv'),
  print('plan.svg', 'The plan of the lawn', 'image/svg+xml', [GAME, TURN]),
  print('plan.png', 'The plan of the lawn', 'image/png', [GAME, TURN]),
  print('score.pdf', 'The score sheet', 'application/pdf'),
  print('putback.pdf', 'The card for putting balls back', 'application/pdf', [GAME, TURN]),
  {
    method: 'post',
    path: '/api/judge',
    tag: 'Rules',
    summary: 'The rules’ answer to a question, without a picture',
    status: 200,
    answer: { json: 'Answer' },
    body: jsonBody('Question'),
    refusals: [422],
  },
];
