import express, { type Express, type RequestHandler } from 'express';
import type { Deps } from './deps.ts';
import { errorHandler, notFound } from './error-handler.ts';
import { revalidate, securityHeaders } from './guards/headers.ts';
import { checkHost, checkOrigin } from './guards/host-check.ts';
import { perMinute } from './guards/rate.ts';
import { requestLog } from './guards/request-log.ts';
import { PICTURE_RESOURCES, RESOURCES } from './resources.ts';
import { openService } from './service.ts';

/** Largest JSON body; an imported game may be larger. */
const LARGEST_JSON = '300kb';
const LARGEST_IMPORT = '20mb';

/** An Express app, and how to end what it has under way. */
export type App = { readonly app: Express; readonly close: () => void };

const onlyPosts =
  (limit: RequestHandler): RequestHandler =>
  (request, response, next) =>
    request.method === 'POST' ? limit(request, response, next) : next();

const addGuards = (app: Express, deps: Deps, dev: boolean): void => {
  app.use(requestLog(deps.log));
  app.use(securityHeaders(dev));
  app.use(checkHost(deps.host, deps.names));
  app.use(checkOrigin);
  app.use('/api', revalidate);
  app.use('/api', perMinute(deps.limits.requestsPerMinute, 'requests'));
  app.use([...PICTURE_RESOURCES], onlyPosts(perMinute(deps.limits.picturesPerMinute, 'pictures')));
  app.use('/api/games/import', express.json({ limit: LARGEST_IMPORT }));
  app.use(express.json({ limit: LARGEST_JSON }));
};

/**
 * The service over HTTP. `page` serves everything that is not the interface; `dev` relaxes what its tool needs. Nothing is listened on and
 * nothing but `deps` is touched.
 */
export const createApp = (deps: Deps, page: RequestHandler | null = null, dev = false): App => {
  const service = openService(deps);
  const app = express();
  app.disable('x-powered-by');
  app.set('query parser', 'simple');
  app.set('trust proxy', false);
  addGuards(app, deps, dev);
  for (const [path, router] of RESOURCES) app.use(path, router(service));
  app.use('/api', notFound);
  if (page) app.use(page);
  app.use(notFound);
  app.use(errorHandler(deps.log));
  return { app, close: () => service.channels.close() };
};
