import type { Router } from 'express';
import { guessesRouter, standsRouter, tracesRouter } from './routes/aids.ts';
import { combinationsRouter } from './routes/combinations.ts';
import { docsRouter, openApiRouter } from './routes/docs.ts';
import { gamesRouter } from './routes/games.ts';
import { healthRouter } from './routes/health.ts';
import { judgeRouter } from './routes/judge.ts';
import { lawnsRouter, spotsRouter } from './routes/named.ts';
import { photosRouter } from './routes/photos.ts';
import { progressRouter } from './routes/progress.ts';
import { readingsRouter, takingRouter } from './routes/readings.ts';
import { samplesRouter } from './routes/samples.ts';
import { settingsRouter } from './routes/settings.ts';
import type { Service } from './service.ts';

/** Where each resource is found, and its router. */
export const RESOURCES: readonly (readonly [path: string, router: (service: Service) => Router])[] = [
  ['/api/photos', photosRouter],
  ['/api/traces', tracesRouter],
  ['/api/guesses', guessesRouter],
  ['/api/stands', standsRouter],
  ['/api/readings', readingsRouter],
  ['/api/sightings', (service) => takingRouter(service, 'sighting')],
  ['/api/checks', (service) => takingRouter(service, 'check')],
  ['/api/combinations', combinationsRouter],
  ['/api/progress', progressRouter],
  ['/api/judge', judgeRouter],
  ['/api/settings', settingsRouter],
  ['/api/spots', spotsRouter],
  ['/api/lawns', lawnsRouter],
  ['/api/samples', samplesRouter],
  ['/api/games', gamesRouter],
  ['/api/health', healthRouter],
  ['/api/openapi.json', openApiRouter],
  ['/api/docs', docsRouter],
];

/** Resources whose POST makes the machine decode a picture: a person takes some seconds for each. */
export const PICTURE_RESOURCES = [
  '/api/photos',
  '/api/traces',
  '/api/guesses',
  '/api/stands',
  '/api/readings',
  '/api/sightings',
  '/api/checks',
] as const;
