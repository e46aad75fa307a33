import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';

/** How long requests under way may take when the service stops, ms. */
const GRACE_MS = 5000;

/** Why the service cannot listen, in a sentence. */
export class ListenError extends Error {}

const REASONS: Readonly<Record<string, (host: string, port: number) => string>> = {
  EADDRINUSE: (host, port) =>
    `Port ${port} on ${host} is in use already, perhaps by another Sward; stop that one, or set SWARD_PORT to another port.`,
  EACCES: (_, port) => `Port ${port} may not be used by this user; set SWARD_PORT to a port from 1024.`,
  EADDRNOTAVAIL: (host) =>
    `This machine does not have the address ${host}; set SWARD_HOST to one it has, or to 127.0.0.1.`,
  ENOTFOUND: (host) =>
    `The name ${host} is not known; set SWARD_HOST to an address of this machine, or to 127.0.0.1.`,
};

/** Listens; resolves to the port. Rejects with a ListenError that says what to do. */
export const listen = (server: Server, host: string, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const reason = REASONS[error.code ?? ''];
      reject(reason ? new ListenError(reason(host, port)) : error);
    });
    server.listen(port, host, () => resolve((server.address() as AddressInfo).port));
  });

/** Takes no more requests and resolves once those under way are answered, or after a grace. */
export const stopListening = (server: Server): Promise<void> =>
  new Promise((resolve) => {
    const hurry = setTimeout(() => server.closeAllConnections(), GRACE_MS);
    server.close(() => {
      clearTimeout(hurry);
      resolve();
    });
    server.closeIdleConnections();
  });

const ANY = ['0.0.0.0', '::'];

/** The address to type into a browser. */
export const addressOf = (host: string, port: number): string => {
  if (host === '127.0.0.1' || host === '::1' || ANY.includes(host)) return `http://localhost:${port}`;
  return `http://${host.includes(':') ? `[${host}]` : host}:${port}`;
};
