import { type Logger, pino } from 'pino';

/** The log of the service. */
export type Log = Logger;

/**
 * A log at `level` on standard error, one JSON object a line, so that standard output keeps to what is meant for people. No names, notes,
 * addresses, headers or bodies are ever handed to it.
 */
export const createLog = (level: string): Log =>
  pino(
    { level, base: null, timestamp: pino.stdTimeFunctions.isoTime },
    pino.destination({ fd: 2, sync: false }),
  );
