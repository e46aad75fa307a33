import { z } from 'zod';

/** Limits that a busy club or a test may set. */
export const DEFAULT_LIMITS = {
  /** Requests a minute from one address. */
  requestsPerMinute: 1200,
  /** Pictures sent or read a minute from one address: a person takes some seconds for each. */
  picturesPerMinute: 60,
  /** Jobs waiting for a worker before the next one is sent away. */
  waitingJobs: 12,
  /** Days after which a photo that no reading and no game uses is removed. */
  unusedPhotoDays: 14,
} as const;
/** Limits in force. */
export type Limits = { readonly [K in keyof typeof DEFAULT_LIMITS]: number };

/** The environment, read once and checked. */
export type Config = {
  /** Address to listen on. */
  readonly host: string;
  readonly port: number;
  /** Folder of the database file and the photos. */
  readonly data: string;
  /** PostgreSQL address in place of the database file; null without. */
  readonly databaseUrl: string | null;
  /** Whether the page is served from its sources. */
  readonly dev: boolean;
  /** Further names under which the page may be asked for, beside addresses and the machine's own name. */
  readonly names: readonly string[];
  readonly logLevel: (typeof LOG_LEVELS)[number];
  readonly limits: Limits;
};

const LOG_LEVELS = ['silent', 'error', 'warn', 'info', 'debug'] as const;

const whole = (least: number, most: number, fallback: number) =>
  z.coerce.number().int().min(least).max(most).default(fallback);

const hostName = /^[a-z0-9.:_-]+$/i;

const EnvironmentSchema = z.object({
  SWARD_HOST: z.string().regex(hostName).default('127.0.0.1'),
  SWARD_PORT: whole(0, 65_535, 8080),
  SWARD_DATA: z.string().min(1).default('./data'),
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\/\S+$/)
    .optional(),
  SWARD_DEV: z.enum(['0', '1']).default('0'),
  SWARD_NAMES: z
    .string()
    .regex(/^[a-z0-9.,:_-]*$/i)
    .default(''),
  SWARD_LOG: z.enum(LOG_LEVELS).default('info'),
  SWARD_REQUESTS_PER_MINUTE: whole(1, 1e6, DEFAULT_LIMITS.requestsPerMinute),
  SWARD_PICTURES_PER_MINUTE: whole(1, 1e6, DEFAULT_LIMITS.picturesPerMinute),
  SWARD_WAITING_JOBS: whole(1, 1000, DEFAULT_LIMITS.waitingJobs),
  SWARD_UNUSED_PHOTO_DAYS: whole(1, 3650, DEFAULT_LIMITS.unusedPhotoDays),
});

/** What each variable must be, for the sentence that complains about it. */
const NEEDED: Readonly<Record<keyof z.input<typeof EnvironmentSchema>, string>> = {
  SWARD_HOST: 'an address or name to listen on, such as 127.0.0.1 or 0.0.0.0',
  SWARD_PORT: 'a whole number from 0 to 65535',
  SWARD_DATA: 'the path of a folder',
  DATABASE_URL: 'an address such as postgres://user@host/name',
  SWARD_DEV: '0 or 1',
  SWARD_NAMES: 'host names separated by commas',
  SWARD_LOG: `one of ${LOG_LEVELS.join(', ')}`,
  SWARD_REQUESTS_PER_MINUTE: 'a whole number from 1',
  SWARD_PICTURES_PER_MINUTE: 'a whole number from 1',
  SWARD_WAITING_JOBS: 'a whole number from 1 to 1000',
  SWARD_UNUSED_PHOTO_DAYS: 'a whole number of days from 1 to 3650',
};

/** The environment holds variables that cannot be used; the message names every one of them. */
export class ConfigError extends Error {
  constructor(complaints: readonly string[]) {
    super(`The environment cannot be used: ${complaints.join('; ')}.`);
    this.name = 'ConfigError';
  }
}

/** An address may hold a password, which belongs in no message. */
const shown = (name: string, value: string | undefined): string =>
  name === 'DATABASE_URL' ? 'another text' : `"${value}"`;

/** Reads the configuration from `environment`; an empty variable counts as none. Throws one ConfigError that names all bad variables. */
export const readConfig = (environment: Readonly<Record<string, string | undefined>>): Config => {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
  const parsed = EnvironmentSchema.safeParse(given);
  if (!parsed.success) {
    const names = [
      ...new Set(parsed.error.issues.map(({ path }) => String(path[0]))),
    ] as (keyof typeof NEEDED)[];
    throw new ConfigError(
      names.map((name) => `${name} is ${shown(name, given[name])} but must be ${NEEDED[name]}`),
    );
  }
  const read = parsed.data;
  return {
    host: read.SWARD_HOST,
    port: read.SWARD_PORT,
    data: read.SWARD_DATA,
    databaseUrl: read.DATABASE_URL ?? null,
    dev: read.SWARD_DEV === '1',
    names: read.SWARD_NAMES.split(',').filter((name) => name !== ''),
    logLevel: read.SWARD_LOG,
    limits: {
      requestsPerMinute: read.SWARD_REQUESTS_PER_MINUTE,
      picturesPerMinute: read.SWARD_PICTURES_PER_MINUTE,
      waitingJobs: read.SWARD_WAITING_JOBS,
      unusedPhotoDays: read.SWARD_UNUSED_PHOTO_DAYS,
    },
  };
};
