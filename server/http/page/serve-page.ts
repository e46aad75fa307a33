import { extname, join } from 'node:path';
import compression from 'compression';
import express, { type RequestHandler, Router } from 'express';
import { InputError } from '../../errors.ts';

const YEAR_MS = 365 * 86_400_000;

const notThere = (): InputError =>
  new InputError('not-found', 'There is no such file; load the page again, it may have been renewed.', 404);

/**
 * Serves the built page from `dist`. Files under `/assets` bear a digest in their names and are kept for good; everything else is asked for
 * again. Addresses within the page are answered with the page itself. What is text goes compressed: the club's network may be slow.
 */
export const servePage = (dist: string): RequestHandler => {
  const router = Router();
  router.use(compression());
  router.use(
    '/assets',
    express.static(join(dist, 'assets'), { immutable: true, maxAge: YEAR_MS, index: false }),
  );
  router.use('/assets', () => {
    throw notThere();
  });
  router.use(
    express.static(dist, { setHeaders: (response) => void response.set('Cache-Control', 'no-cache') }),
  );
  router.get('/{*path}', (request, response) => {
    if (extname(request.path) !== '') throw notThere();
    response.set('Cache-Control', 'no-cache');
    response.sendFile(join(dist, 'index.html'));
  });
  return router;
};
