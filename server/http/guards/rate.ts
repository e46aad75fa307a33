import type { RequestHandler } from 'express';
import { rateLimit } from 'express-rate-limit';
import { InputError } from '../../errors.ts';

const MINUTE_MS = 60_000;

/** Sends an address away that asks more than `most` times a minute; `what` names in the plural what it asked for. */
export const perMinute = (most: number, what: string): RequestHandler =>
  rateLimit({
    windowMs: MINUTE_MS,
    limit: most,
    standardHeaders: 'draft-8',
    legacyHeaders: false,
    handler: (_request, _response, next) =>
      next(
        new InputError(
          'too-many-requests',
          `More than ${most} ${what} came from this address within a minute; wait a little and try again.`,
          429,
        ),
      ),
  });
