import { createServer, type Server } from 'node:http';
import { resolve } from 'node:path';
import type { RequestHandler } from 'express';
import { type Config, ConfigError, readConfig } from './config.ts';
import { createApp } from './http/create-app.ts';
import { buildPage, isStale } from './http/page/build-page.ts';
import { openDevPage } from './http/page/dev-page.ts';
import { servePage } from './http/page/serve-page.ts';
import { createLog } from './logging.ts';
import { addressOf, ListenError, listen, stopListening } from './wiring/listen.ts';
import { type OpenService, openService } from './wiring/open-service.ts';

const PROJECT = resolve(import.meta.dirname, '..');

type Page = { readonly handler: RequestHandler; readonly close: () => Promise<void> };

const openPage = async ({ dev }: Config, server: Server): Promise<Page> => {
  if (dev) return openDevPage(PROJECT, server);
  if (isStale(PROJECT)) {
    console.log('Building the page, which is done once…');
    await buildPage(PROJECT);
  }
  return { handler: servePage(resolve(PROJECT, 'web', 'dist')), close: async () => undefined };
};

/** Ends everything in the order opposite to its start. A second signal ends the process at once. */
const stopOnSignal = (server: Server, page: Page, service: OpenService, endJobs: () => void): void => {
  let stopping = false;
  const stop = async (): Promise<void> => {
    if (stopping) process.exit(1);
    stopping = true;
    endJobs();
    await stopListening(server);
    await page.close();
    await service.close();
    process.exit(0);
  };
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => void stop());
};

const start = async (): Promise<void> => {
  const config = readConfig(process.env);
  const log = createLog(config.logLevel);
  const service = await openService(config, PROJECT, log);
  const server = createServer();
  try {
    const page = await openPage(config, server);
    const { app, close } = createApp(service.deps, page.handler, config.dev);
    server.on('request', app);
    const port = await listen(server, config.host, config.port);
    stopOnSignal(server, page, service, close);
    console.log(`Sward is ready: ${addressOf(config.host, port)}`);
  } catch (error) {
    await service.close();
    throw error;
  }
};

start().catch((error: unknown) => {
  const told = error instanceof ConfigError || error instanceof ListenError;
  console.error(told ? error.message : error);
  process.exit(1);
});
