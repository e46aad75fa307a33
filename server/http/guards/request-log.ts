import type { RequestHandler } from 'express';
import { pinoHttp } from 'pino-http';
import type { Log } from '../../logging.ts';

/** The path without its query, which may hold words a person searched for. */
const pathOf = (url: string | undefined): string => (url ?? '').split('?')[0]!;

/** Logs each request by method, path, status and time, and nothing about who asked or what was sent. */
export const requestLog = (log: Log): RequestHandler =>
  pinoHttp({
    logger: log,
    quietReqLogger: true,
    customLogLevel: (_request, response) => (response.statusCode >= 500 ? 'warn' : 'debug'),
    serializers: {
      req: (request: { method: string; url: string }) => ({
        method: request.method,
        path: pathOf(request.url),
      }),
      res: (response: { statusCode: number }) => ({ status: response.statusCode }),
    },
  }) as unknown as RequestHandler;
