import { isIP } from 'node:net';
import { hostname } from 'node:os';
import type { RequestHandler } from 'express';
import { InputError } from '../../errors.ts';

/** The host of a Host header or an origin without its port and brackets, in small letters. */
const nameOf = (host: string): string =>
  host
    .toLowerCase()
    .replace(/:\d+$/, '')
    .replace(/^\[(.*)\]$/, '$1')
    .replace(/\.$/, '');

const isLoopback = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127\.\d+\.\d+\.\d+$/.test(host);

/**
 * Names under which the service may be asked for. A page elsewhere can have a name of its own point to this machine (DNS rebinding), but it
 * cannot make the browser send another name than that one: so addresses are taken, and of names only those that are known. On
 * loopback only loopback's own are.
 */
const admits = (host: string, listening: string, names: readonly string[]): boolean => {
  const name = nameOf(host);
  if (isLoopback(name) || names.includes(name)) return true;
  if (isLoopback(nameOf(listening))) return false;
  const own = hostname().toLowerCase();
  return isIP(name) !== 0 || name === own || name === `${own}.local`;
};

/** Refuses requests under a name that is not this machine's. */
export const checkHost =
  (listening: string, names: readonly string[]): RequestHandler =>
  (request, _response, next) => {
    const host = request.headers.host;
    if (host === undefined || !admits(host, listening, names.map(nameOf)))
      throw new InputError(
        'unknown-host',
        'The page was asked for under a name that is not known to be this machine’s; use its address, or add the name to SWARD_NAMES.',
        421,
      );
    next();
  };

const SAFE = ['GET', 'HEAD', 'OPTIONS'];

const sameHost = (origin: string, host: string | undefined): boolean => {
  try {
    return new URL(origin).host === host?.toLowerCase();
  } catch {
    return false;
  }
};

/** Refuses changes that another site's page asks for: browsers name the page's origin with every such request. */
export const checkOrigin: RequestHandler = (request, _response, next) => {
  const { origin, host } = request.headers;
  const crossSite = request.headers['sec-fetch-site'] === 'cross-site';
  if (!SAFE.includes(request.method) && (crossSite || (origin !== undefined && !sameHost(origin, host))))
    throw new InputError(
      'foreign-origin',
      'Another site’s page asked for a change here, which is not taken; open this page itself.',
      403,
    );
  next();
};
