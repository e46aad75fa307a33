import type { RequestHandler } from 'express';
import helmet from 'helmet';

const SELF = ["'self'"];

/** What the page may load: its own files, and pictures it holds in memory. Styles may stand in the page, scripts may not. */
const DIRECTIVES = {
  defaultSrc: SELF,
  scriptSrc: SELF,
  styleSrc: ["'self'", "'unsafe-inline'"],
  imgSrc: ["'self'", 'blob:', 'data:'],
  fontSrc: SELF,
  connectSrc: SELF,
  workerSrc: SELF,
  manifestSrc: SELF,
  objectSrc: ["'none'"],
  baseUri: ["'none'"],
  formAction: SELF,
  frameAncestors: ["'none'"],
};

/** While the page is served from its sources, its tool puts a script into the page and talks over a socket. */
const DEV = { scriptSrc: ["'self'", "'unsafe-inline'"], connectSrc: ["'self'", 'ws:'] };

/**
 * Security headers. A club serves the page over plain HTTP on its own network: so nothing is upgraded to HTTPS and nobody is told to
 * insist on it.
 */
export const securityHeaders = (dev: boolean): RequestHandler =>
  helmet({
    contentSecurityPolicy: { useDefaults: false, directives: dev ? { ...DIRECTIVES, ...DEV } : DIRECTIVES },
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'same-origin' },
    crossOriginOpenerPolicy: { policy: 'same-origin' },
    originAgentCluster: false,
    xFrameOptions: { action: 'deny' },
  });

/** Answers of the interface are asked for again each time; unchanged ones cost no transfer. */
export const revalidate: RequestHandler = (_request, response, next) => {
  response.set('Cache-Control', 'private, no-cache');
  next();
};
